import { phrasesOf } from './language.ts';
import { commonWords } from '../../shared/messages/en/view/common.ts';
import type { AthleteList } from '../../shared/schemas/athlete.ts';
import type { GroupList } from '../../shared/schemas/group.ts';
import { paths } from '../api.ts';
import { type Resource, useResource } from './use-resource.ts';

const common = phrasesOf('common', commonWords);

export interface Directory {
  athletes: Resource<AthleteList>;
  groups: Resource<GroupList>;
  athleteName: (athlete_id: number | null) => string;
  groupName: (group_id: number | null) => string;
}

/** Names of athletes and groups, which nearly every page needs. */
export function useDirectory(): Directory {
  const athletes = useResource<AthleteList>(paths.athletes);
  const groups = useResource<GroupList>(paths.groups);
  return {
    athletes,
    groups,
    athleteName: (athlete_id) =>
      athletes.value?.items.find((athlete) => athlete.athlete_id === athlete_id)?.name ??
      (athlete_id === null ? '' : common('athlete', { athlete_id })),
    groupName: (group_id) =>
      groups.value?.items.find((group) => group.group_id === group_id)?.name ??
      (group_id === null ? '' : common('group', { group_id })),
  };
}
