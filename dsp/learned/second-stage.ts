import { because } from '../../shared/reason.ts';
import { ramp } from '../numeric/ramp.ts';
import type { FootContact, FoundContact } from '../events/foot-contact.ts';
import { askBoosted } from './boosted.ts';
import { type ContactModel, intervalAt } from './contact-model.ts';
import { askForest } from './forest.ts';
import { askKernel } from './kernel.ts';
import { landingAnchor } from './landing-anchor.ts';
import { strideShape } from './stride-shape.ts';

/**
 * Up to the first novelty a model is believed (95 % of the contacts of a runner whom it has never seen lie below 1), from the second on
 * the physical features stand alone. Without gyroscope those err by more than the model does, so it is believed further. Chosen on
 * left-out runners and generated sprints, which therefore judge it kindly.
 */
const BELIEVED = { gyroscope: { whole: 1.5, not: 5 }, accelerometer: { whole: 4, not: 7 } };

/** A sharp impact keeps its word about touchdown from the second rate on; below the first the model has as much to say as of any other, Hz. */
const SHARP_RATE_HZ = { none: 100, whole: 400 };

/** A touchdown that the trees move further than this is a misread one: the shape is read again about the new one. */
const MISREAD_STRIDES = 0.025;

/**
 * The first stage is heard beside the model: by this part of what it differs by, and of no more than that. What differs between people
 * errs otherwise in the two, so a little of the one takes from the other (touchdown's SD between left-out runners falls by a sixth);
 * where the first stage is far off, it has locked on to something else. Chosen on left-out runners.
 */
const HEARD = { part: 0.3, most_s: 0.005 };

/** What both stages say together. @param learned what the model alone says of the contact */
export function heardTogether(
  learned: Learned,
  { touchdown_s, toe_off_s }: Pick<FootContact, 'touchdown_s' | 'toe_off_s'>,
  { first_later_s }: Pick<ContactModel, 'first_later_s'>,
): Learned {
  const heard = (by_model: number, first: number | null, later: number): number =>
    first === null
      ? by_model
      : by_model + HEARD.part * Math.min(HEARD.most_s, Math.max(-HEARD.most_s, first - by_model - later));
  return {
    ...learned,
    touchdown_s: heard(learned.touchdown_s, touchdown_s, first_later_s.touchdown),
    toe_off_s: heard(learned.toe_off_s, toe_off_s, first_later_s.toe_off),
  };
}

/** One instant by both stages, with standard uncertainties, s. */
interface Two {
  first: number;
  first_u: number;
  learned: number;
  learned_u: number;
}

/** What a model says of a contact. */
export interface Learned {
  touchdown_s: number;
  toe_off_s: number;
  /** How far the model's parts differ, s. */
  touchdown_spread_s: number;
  toe_off_spread_s: number;
  novelty: number;
}

/** So often the shape is read again about a better anchor. */
const READINGS = 3;

/**
 * Asks a model about a contact that the first stage found: the kernel where touchdown lies, then the trees, about that touchdown,
 * where toe-off does; boosted trees are asked about both, and the mean is said. While the trees see touchdown far from where the kernel
 * has it, the landing was misread and all is read again there; where that comes to no end, nothing is known.
 * @returns null where the recording does not reach over the stride
 */
export function askModel({ contact, shape }: FoundContact, model: ContactModel): Learned | null {
  let landed_s = contact.touchdown_s;
  for (let reading = 1; ; reading++) {
    const anchor_s = landingAnchor(shape, landed_s);
    const about = strideShape(shape, anchor_s, contact.toe_off_s, model.scales);
    if (!about) return null;
    const { touchdown, novelty } = askKernel(model.kernel, about);
    const touchdown_s = anchor_s + touchdown * shape.stride_s;
    const seen = strideShape(shape, touchdown_s, contact.toe_off_s, model.scales);
    if (!seen) return null;
    const trees = askForest(model.forest, seen);
    const astray = Math.abs(trees.touchdown) > MISREAD_STRIDES;
    if (astray && reading < READINGS) {
      landed_s = touchdown_s + trees.touchdown * shape.stride_s;
      continue;
    }
    const boosted = askBoosted(model.boosted, seen);
    return {
      touchdown_s: touchdown_s + (boosted.touchdown / 2) * shape.stride_s,
      toe_off_s: touchdown_s + ((trees.toe_off + boosted.toe_off) / 2) * shape.stride_s,
      touchdown_spread_s: shape.stride_s * Math.hypot(trees.touchdown_sd, trees.touchdown),
      toe_off_spread_s: shape.stride_s * Math.hypot(trees.toe_off_sd, (trees.toe_off - boosted.toe_off) / 2),
      novelty: astray ? Number.POSITIVE_INFINITY : novelty,
    };
  }
}

/**
 * The second stage: moves the instants of a contact to where a model, learned from runners on force plates, has them. A sharp
 * impact keeps its word about touchdown. Where the contact is unlike all that was learned, the physical features stand; in
 * between both count, and what they differ by widens the uncertainty.
 */
export function secondStage(found: FoundContact, model: ContactModel | null): FootContact {
  const { contact, lost_u_s } = found;
  const sharp = found.sharp * ramp(found.shape.rate_hz, SHARP_RATE_HZ.none, SHARP_RATE_HZ.whole);
  if (!model) return contact;
  const said = askModel(found, model);
  const learned = said && heardTogether(said, contact, model);
  const widened = widenedFirstStage({ ...found, sharp }, model);
  if (!learned) return model.channels === 'accelerometer' ? withoutTimes(widened) : widened;
  const believed = BELIEVED[model.channels];
  const trust = 1 - ramp(learned.novelty, believed.whole, believed.not);
  const { intervals } = model;
  // Without gyroscope several bursts of a stride look like a landing, and nothing physical tells them apart.
  if (trust === 0 && model.channels === 'accelerometer') return withoutTimes(widened);
  const down = mixed(trust * (1 - sharp), {
    first: contact.touchdown_s,
    first_u: widened.touchdown_s_u,
    learned: learned.touchdown_s,
    learned_u: Math.hypot(intervalAt(intervals.touchdown, learned.touchdown_spread_s), lost_u_s.touchdown),
  });
  // Without gyroscope a sharp burst may still be another event than the landing: what the model sees elsewhere is a doubt.
  const doubt_s = model.channels === 'accelerometer' ? trust * sharp * (learned.touchdown_s - contact.touchdown_s) : 0;
  down.u = Math.hypot(down.u, doubt_s);
  // A toe-off that the first stage does not see is given only where the model is wholly believed.
  const unseen = contact.toe_off_s === null || widened.toe_off_s_u === null;
  if (unseen && trust < 1) return { ...widened, touchdown_s: down.at, touchdown_s_u: down.u };
  const off = mixed(unseen ? 1 : trust, {
    first: contact.toe_off_s ?? 0,
    first_u: widened.toe_off_s_u ?? 0,
    learned: learned.toe_off_s,
    learned_u: Math.hypot(intervalAt(intervals.toe_off, learned.toe_off_spread_s), lost_u_s.toe_off),
  });
  if (off.at <= down.at) return widened;
  // Errors of both instants of a runner are partly alike, so the contact time has an interval of its own; one that a sharp impact begins has not.
  const spread_s = Math.hypot(learned.touchdown_spread_s, learned.toe_off_spread_s);
  const own = Math.hypot(intervalAt(intervals.contact_time, spread_s), lost_u_s.touchdown, lost_u_s.toe_off);
  const whole = trust * (1 - sharp);
  const contact_time_s_u = Math.hypot(whole * own, (1 - whole) * Math.hypot(down.u, off.u));
  const moved = off.at - (contact.toe_off_s ?? off.at);
  const { toe_off_s: _, ...reasons } = contact.reasons;
  return {
    ...contact,
    touchdown_s: down.at,
    touchdown_s_u: down.u,
    toe_off_s: off.at,
    toe_off_s_u: off.u,
    contact_time_s_u,
    contact_time_s_repeatable_u: contact_time_s_u * (trust > 0 ? intervals.contact_time.repeatable : 1),
    backward_s: contact.backward_s === null ? null : contact.backward_s + moved,
    reasons: unseen ? reasons : contact.reasons,
  };
}

/** What is left of a contact whose landing may be another event of the stride. */
function withoutTimes(contact: FootContact): FootContact {
  const why = because('landing_unclear');
  return {
    ...contact,
    toe_off_s: null,
    toe_off_s_u: null,
    toe_off_raw_s: null,
    contact_time_s_u: null,
    contact_time_s_repeatable_u: null,
    reasons: { ...contact.reasons, toe_off_s: why, contact_time_ms: why },
  };
}

/** The first stage by itself, with what it is off by on runners that nobody tuned it to. */
function widenedFirstStage({ contact, sharp }: FoundContact, { first_stage }: ContactModel): FootContact {
  const soft = sharp + (1 - sharp) * first_stage.touchdown;
  const touchdown_s_u = contact.touchdown_s_u * soft;
  const toe_off_s_u = contact.toe_off_s_u === null ? null : contact.toe_off_s_u * first_stage.toe_off;
  const u = contact.contact_time_s_u;
  return {
    ...contact,
    touchdown_s_u,
    toe_off_s_u,
    contact_time_s_u: u === null ? null : u * Math.max(soft, first_stage.contact_time),
  };
}

/** Mean and standard deviation of the mixture of two estimates, the learned one with the given weight. */
function mixed(weight: number, { first, first_u, learned, learned_u }: Two): { at: number; u: number } {
  const variance =
    weight * learned_u ** 2 + (1 - weight) * first_u ** 2 + weight * (1 - weight) * (learned - first) ** 2;
  return { at: first + weight * (learned - first), u: Math.sqrt(variance) };
}
