import type { FaultRoom } from '../../sentence.ts';

/** Devices on the network, their codes and roles. */
export const accessFaults = {
  DEVICE_UNKNOWN: {
    message: 'This device is not paired with Cinderlane; nothing was read or changed.',
    hint: 'Ask for a pairing code: it is shown under "Devices" on the machine that Cinderlane runs on.',
  },
  ROLE_REFUSED: {
    message: ({ role, roles }: { role: string; roles: string[] }) =>
      `This device is paired as "${role}"; this needs ${roles.join(' or ')}. Nothing was read or changed.`,
    hint: 'The role can be changed under "Devices" on the machine that Cinderlane runs on.',
  },
  OTHER_DAY_REFUSED: {
    message: ({ date }: { date: string }) =>
      `This device works with today's sessions only; this one is of ${date}. Nothing was read or changed.`,
    hint: "Other days are open to a device with the coach's role.",
  },
  'OTHER_DAY_REFUSED.athlete': {
    message:
      "This device works with those who run today only; this athlete is in none of today's sessions. Nothing was read or changed.",
    hint: "Put the athlete into today's session first, or use a device with the coach's role.",
  },
  CONSENT_NOT_GIVEN: {
    message: ({ repetition_id }: { repetition_id: number }) =>
      `The athlete of repetition ${repetition_id} has not given consent to use in research, so a device for studies may not read it. Nothing was compared.`,
    hint: 'Leave it out, or ask the coach whether the consent can be recorded.',
  },
  FRESH_CODE_NEEDED: {
    message: 'This gives names away or cannot be undone, so it needs a fresh code. Nothing was done.',
    hint: 'Ask for a confirmation code under "Devices" on the machine that Cinderlane runs on, and type it here.',
  },
  'CODE_REFUSED.none': {
    message: 'No code is waiting: a code is good for two minutes, five tries and one device.',
    hint: 'Ask for a new one under "Devices" on the machine that Cinderlane runs on.',
  },
  'CODE_REFUSED.wrong': {
    message: ({ tries_left }: { tries_left: number }, say) =>
      `That is not the code. ${tries_left === 0 ? 'It is void now.' : `Tries left: ${say.number(tries_left)}.`}`,
    hint: 'The code has six digits and stands under "Devices" on the machine that Cinderlane runs on.',
  },
  DEVICE_NOT_FOUND: {
    message: ({ device_id }: { device_id: number }) => `There is no device ${device_id}.`,
    hint: 'GET /api/access/devices lists them.',
  },
  AUTHORITY_NOT_FOUND: {
    message: 'This server has made no certificate authority.',
    hint: 'It makes one when it is started with --lan.',
  },
  ERASE_UNFINISHED: {
    message:
      "The person's rows are gone, but another program still reads the database, so its log could not be emptied; bytes of the name may stand in it.",
    hint: 'Close other programs that have the database open, then start Cinderlane again: it finishes the erasure first.',
  },
  TOO_MANY_REQUESTS: {
    message: ({ after }: { after: string }) => `Too many requests from this device; it may ask again in ${after}.`,
    hint: 'Close other pages of Cinderlane on this device.',
  },
} as const satisfies FaultRoom;
