import type { DESCRIPTION_REMARKS_EN } from '../en/description-remarks.ts';
import type { PhrasesLike } from '../sentence.ts';

const found = (text: string | null) => (text === null ? '' : ` (gefunden: ${text})`);
const TYPES: Record<string, string> = {
  object: 'eine Gruppe von Feldern in { }',
  array: 'eine Liste in [ ]',
  string: 'ein Text in Anführungszeichen',
  number: 'eine Zahl',
  integer: 'eine ganze Zahl',
  boolean: 'true oder false',
  null: 'null',
};

export const DESCRIPTION_REMARKS_DE: PhrasesLike<typeof DESCRIPTION_REMARKS_EN> = {
  remark_not_json: ({ why }) => `ist kein JSON: ${why}`,
  remark_and: ({ first, second }, say) => `${say.notice(first)}; ${say.notice(second)}`,
  remark_missing: ({ field }) => `„${field}“ fehlt`,
  remark_no_such_field: 'dieses Feld gibt es nicht; ist es falsch geschrieben oder am falschen Ort?',
  remark_one_of: ({ allowed, found: text }) => `muss eines davon sein: ${allowed.join(', ')}${found(text)}`,
  remark_type: ({ type, found: text }) => `muss ${TYPES[type] ?? type} sein${found(text)}`,
  remark_uuid: ({ found: text }) =>
    `muss eine UUID aus 32 Hexadezimalziffern in Kleinschreibung sein, in Gruppen von 8-4-4-4-12; die 16-Bit-Zahl 180f ist 0000180f-0000-1000-8000-00805f9b34fb${found(text)}`,
  remark_bytes: ({ found: text }) =>
    `müssen Bytes aus je zwei Hexadezimalziffern in Kleinschreibung sein, mit einem Leerzeichen dazwischen, etwa „01 e8 03“${found(text)}`,
  remark_short_name: ({ found: text }) =>
    `muss ein kurzer Name aus Kleinbuchstaben, Ziffern und Bindestrichen sein, höchstens 40${found(text)}`,
  remark_six_digits: ({ found: text }) => `müssen sechs Ziffern sein${found(text)}`,
  remark_form: ({ found: text }) => `hat keine der Formen, die hier erlaubt sind${found(text)}`,
  remark_least_entries: ({ least }, say) =>
    `braucht mindestens ${least} ${say.plural(least, { one: 'Eintrag', other: 'Einträge' })}`,
  remark_most_entries: ({ most }) => `darf höchstens ${most} Einträge haben`,
  remark_empty: 'darf nicht leer sein',
  remark_most_characters: ({ most }) => `darf höchstens ${most} Zeichen haben`,
  remark_least: ({ least, found: text }, say) => `muss ${say.number(least)} oder mehr sein${found(text)}`,
  remark_most: ({ most, found: text }, say) => `muss ${say.number(most)} oder weniger sein${found(text)}`,
  remark_above: ({ above, found: text }, say) => `muss mehr als ${say.number(above)} sein${found(text)}`,

  remark_counter_or_stamp:
    'ein Zähler oder ein Zeitstempel ist nötig: Ohne eines von beiden lassen sich Verluste nicht erkennen',
  remark_exactly_one: ({ name, count, why }, say) =>
    `muss genau ein ${name} haben (header und trailer zusammen, gefunden ${say.number(count)}), denn ${say.notice(why)}`,
  remark_has_one_but: ({ name, why }, say) => `hat ein ${name}, doch ${say.notice(why)}`,
  remark_is_null: ({ place }) => `${place} ist null`,
  remark_is_given: ({ place }) => `${place} ist angegeben`,
  remark_samples_from: '/packet/samples sagt, woher die Zahl der Messwerte kommt',
  remark_unsigned: ({ field, type }) => `${field} muss eine ganze Zahl ohne Vorzeichen sein, nicht ${type}`,
  remark_for_skip_only: 'gibt es nur für skip',
  remark_count_in_trailer:
    'kann sample_count nicht enthalten: Es muss bekannt sein, bevor die Messwerte gelesen werden',
  remark_more_samples: ({ samples, most }) => `ist ${samples}, mehr als /packet/max_samples ${most}`,
  remark_signed_differences: 'Differenzen müssen ganze Zahlen mit Vorzeichen eines ganzzahligen Kanals sein',
  remark_wider: ({ type, than }) => `${type} ist breiter als ${than}`,
  remark_packed_beside_whole: ({ types }) =>
    `Typen von 4 und 12 Bit können in einem Messwert nicht neben solchen ganzer Bytes stehen (${types.join(', ')})`,
  remark_channel_twice: 'nennt einen Kanal zweimal',
  remark_main_channels: ({ count }) => `hat ${count} der 3 Kanäle acc; das erste Paket muss alle drei tragen`,
  remark_gyr_channels: ({ count, wanted }) =>
    `hat ${count} der 3 Kanäle gyr; /gyr ${wanted ? 'braucht alle' : 'ist null'}`,
  remark_gyr_all_or_none: 'muss alle drei Kanäle gyr tragen oder keinen',
  remark_kind_needed:
    'Pakete einer Characteristic werden an einem Byte unterschieden: Jeder ihrer Ströme braucht ein kind',
  remark_kind_twice: 'ein anderer Strom hat dasselbe kind',
  remark_mirror: 'muss die Achsen drehen (jede von x, y, z einmal, rechtshändig); ein Spiegelbild ist nicht erlaubt',
  remark_twice: ({ name }) => `hat ein ${name} zweimal`,
  remark_full_above_empty: ({ empty_v }, say) => `muss mehr als empty_v (${say.number(empty_v)}) sein`,
  remark_battery_missing: '„battery“ fehlt: Es sagt, was das Feld battery_volts bedeutet',
  remark_code_without_bonding: 'nützt nur, wo bonding „with_code“ ist',

  remark_short_counter: ({ rate_hz, wrap_s, stall_s }, say) =>
    `bei ${say.number(rate_hz)} Hz beginnt der Zähler alle ${say.number(wrap_s, 2)} s von vorn, eher als eine Verbindung stocken kann (${say.number(stall_s)} s), und einen Zeitstempel gibt es nicht. Pakete nach einem Stocken werden zurückgehalten, bis ihre Ankunft sagt, wie oft das geschah; gingen dabei auch Pakete verloren, kann ein Stück ausgelassen werden. Ein breiterer Zähler oder ein Zeitstempel hülfe.`,
  remark_by_arrival:
    'diese Pakete tragen keinen Zeitstempel und werden darum nach ihrer Ankunft zu den anderen gestellt, auf einige Millisekunden genau.',
  remark_long_packet: ({ samples, bytes, most }) =>
    `${samples} Messwerte ergeben ein Paket von ${bytes} Byte; eine Notification trägt höchstens ${most}.`,
  remark_small_mtu: ({ bytes, needed, mtu }) =>
    `ein Paket kann ${bytes} Byte haben, wofür eine MTU von ${needed} nötig ist, nicht ${mtu}.`,
};
