import { dateLocale, phrasesOf } from '../../app/language.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { accessWords } from '../../../shared/messages/en/view/access.ts';
import './access.css';
import { useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { AccessCode, AccessState, DeviceRole } from '../../../shared/schemas/access.ts';
import { useResource } from '../../app/use-resource.ts';
import { faultOf } from '../../client.ts';
import { EmptyState } from '../../parts/empty-state.tsx';
import { FaultBox } from '../../parts/fault-box.tsx';
import { ResourceView } from '../../parts/resource-view.tsx';
import { SelectField } from '../../parts/select-field.tsx';
import { TableScroll } from '../../parts/table-scroll.tsx';
import { type Audit, accessApi, accessPaths, type Devices, roleChoices } from './access-api.ts';
import { CodeCard } from './code-card.tsx';
import { ConfirmForm } from './confirm-form.tsx';
import { DeviceLine } from './device-line.tsx';

const t = phrasesOf('access', accessWords);
const common = phrasesOf('common', commonWords);

/** Devices that may reach this machine over the network: pairing, roles, revoking, and what they did. */
export default function DevicesPage() {
  const me = useResource<AccessState>(accessPaths.me);
  const devices = useResource<Devices>(accessPaths.devices);
  const [chosen, setRole] = useState<DeviceRole | null>(null);
  const [code, setCode] = useState<AccessCode | null>(null);
  const [fault, setFault] = useState<Fault | null>(null);
  const roles = me.value?.roles ?? [];
  // The widest role is chosen on purpose.
  const role = chosen ?? roles[1] ?? 'field';
  const away = me.value !== null && !me.value.here;
  const mayChange = me.value?.here === true || me.value?.confirmed_until_utc != null;

  const ask = (purpose: 'pair' | 'confirm') =>
    accessApi.code(purpose, purpose === 'pair' ? role : undefined).then(
      (issued) => {
        setFault(null);
        setCode(issued);
      },
      (error) => setFault(faultOf(error)),
    );

  return (
    <>
      <h1>{t('devices')}</h1>
      <p class="quiet">{t('on_this_machine_there_is')}</p>
      {fault && <FaultBox fault={fault} />}
      {away && <ConfirmForm me={me} />}
      {mayChange && (
        <section>
          <h2>{t('pair_a_device')}</h2>
          <SelectField
            label={t('it_may_use')}
            value={role}
            options={roleChoices(roles).map(({ value, label, may }) => ({ value, label: `${label}: ${may}` }))}
            onChange={setRole}
          />
          <p class="button-row">
            <button type="button" class="primary" onClick={() => ask('pair')}>
              {t('show_a_pairing_code')}
            </button>
            <button type="button" onClick={() => ask('confirm')}>
              {t('show_a_confirmation_code')}
            </button>
          </p>
          {code && <CodeCard key={code.code} code={code} onEnd={() => devices.reload()} />}
        </section>
      )}
      <section>
        <h2>{t('paired_devices')}</h2>
        <ResourceView resource={devices} name={t('devices_2')}>
          {({ items }) =>
            items.length === 0 ? (
              <EmptyState title={t('no_device_is_paired')}>
                <p>
                  {t('start_the_server_with')}
                  <code>--lan</code>
                  {t('to_let_phones_and_tablets')}
                </p>
              </EmptyState>
            ) : (
              <ul class="lines">
                {items.map((device) => (
                  <DeviceLine
                    key={device.device_id}
                    device={device}
                    roles={roles}
                    mayChange={mayChange && device.revoked_utc === null}
                    onChanged={devices.reload}
                    onFault={setFault}
                  />
                ))}
              </ul>
            )
          }
        </ResourceView>
      </section>
      {mayChange && <UseList />}
    </>
  );
}

function UseList() {
  const audit = useResource<Audit>(accessPaths.audit);
  return (
    <section>
      <h2>{t('what_devices_did')}</h2>
      <p class="quiet small">{t('athletes_stand_here_by_their')}</p>
      <ResourceView resource={audit} name={t('what_devices_did_2')}>
        {({ items }) =>
          items.length === 0 ? (
            <p>{t('nothing_yet')}</p>
          ) : (
            <TableScroll label={t('what_devices_did')}>
              <table>
                <thead>
                  <tr>
                    <th>{t('when')}</th>
                    <th>{t('device')}</th>
                    <th>{common('what')}</th>
                    <th>{common('athlete_2')}</th>
                    <th>{t('operation')}</th>
                  </tr>
                </thead>
                <tbody>
                  {items.map((entry) => (
                    <tr key={entry.audit_id}>
                      <td>{new Date(entry.at_utc).toLocaleString(dateLocale())}</td>
                      <td>{entry.device}</td>
                      <td>{entry.action}</td>
                      <td>{entry.athlete_id ?? t('several')}</td>
                      <td>
                        <code>{entry.operation}</code>
                      </td>
                    </tr>
                  ))}
                </tbody>
              </table>
            </TableScroll>
          )
        }
      </ResourceView>
    </section>
  );
}
