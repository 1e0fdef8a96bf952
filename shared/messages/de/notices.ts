import type { Mounting, Side } from '../../words.ts';
import type { NOTICES_EN } from '../en/notices.ts';
import { DESCRIPTION_REMARKS_DE } from './description-remarks.ts';
import type { Speech } from '../say.ts';
import type { PhrasesLike } from '../sentence.ts';
import { clause, inBrackets } from '../within.ts';

const who = (name: string | null) => name ?? 'Sensoren ohne Athlet';
const packetsOf = (packets: number, say: Speech) =>
  `${say.number(packets)} ${say.plural(packets, { one: 'Paket', other: 'Pakete' })}`;
const ON: Record<Mounting, string> = { foot: 'am Schuh', shank: 'am Unterschenkel' };
const SIDE: Record<Side, string> = { left: 'links', right: 'rechts', unknown: 'ohne Seite' };

export const NOTICES_DE: PhrasesLike<typeof NOTICES_EN> = {
  of_fault: ({ fault }, say) => say.tell(fault).message,

  connecting: 'Verbindet.',
  not_connected: ({ for_s, why }, say) =>
    `Nach ${say.number(for_s, 0)} s nicht verbunden${inBrackets(why, say)}. Einschalten, näher als 10 m bringen und prüfen, dass kein anderes Gerät ihn hält. Es wird immer wieder versucht.`,
  lost_ago: ({ for_s, why, advice }, say) =>
    `Seit ${say.number(for_s, 0)} s verloren${inBrackets(why, say)}. Verbindet sich von selbst wieder; die Aufnahme läuft weiter, die Lücke ist vermerkt. ${say.notice(advice)}`.trim(),
  its_battery_was_low: 'Seine Batterie war schwach: laden.',
  bring_it_nearer: 'Näher bringen oder aus- und wieder einschalten.',
  no_data: ({ for_s }, say) =>
    `Verbunden, aber seit ${say.number(for_s, 0)} s keine Daten. Sensor und Rechner näher zusammenbringen; hilft das nicht, den Sensor aus- und wieder einschalten.`,
  packets_do_not_fit:
    'Seine Pakete passen nicht zu seiner Beschreibung: Sie werden aufgehoben, lassen sich aber nicht zeigen. Die richtige Beschreibung wählen.',
  battery_low: ({ percent }, say) => `Batterie ${say.number(percent, 0)} %: vor der nächsten Einheit laden.`,
  battery_nearly_empty: ({ percent }, say) =>
    `Batterie ${say.number(percent, 0)} %: Er kann jede Minute ausgehen. Jetzt laden oder wechseln.`,

  rate_off: ({ name, nominal_hz, rate_hz, by }, say) =>
    `${name}: ${rateWords({ nominal_hz, rate_hz, by }, say)} Die Messrate in seiner Beschreibung prüfen.`,
  rate_off_standing: ({ nominal_hz, rate_hz, by }, say) => rateWords({ nominal_hz, rate_hz, by }, say),
  counted_anew: ({ name }) =>
    `${name} hat neu zu zählen begonnen. Was folgt, wird nach seiner Uhr oder seiner Ankunft eingeordnet; die Naht ist als Lücke vermerkt.`,
  clock_jumped: ({ name }) =>
    `${name}: Seine Uhr ist gesprungen, sein Zähler nicht. Die Zeiten gehen nach dem Zähler weiter.`,
  from_before_start: ({ name, packets }, say) =>
    `${name}: ${packetsOf(packets, say)} von vor dem Startbefehl wurden weggelassen; die Aufnahme beginnt mit dem Start.`,
  place_unknown: ({ name, packets }, say) =>
    `${name}: ${packetsOf(packets, say)}, deren Platz sich nicht sagen lässt, stehen in der Aufzeichnung, werden aber nicht verwendet.`,
  other_packets: ({ name }) =>
    `${name} sendet Pakete einer Art, von der seine Beschreibung nichts sagt: Sie stehen in der Aufzeichnung, werden aber nicht verwendet.`,
  narrow_link: ({ name, mtu, needed }, say) =>
    `${name}: Die Verbindung trägt ${say.number(mtu)} Byte auf einmal, seine Pakete brauchen ${say.number(needed)}. Fehlen Daten, eine Einstellung mit kleineren Paketen oder einen anderen Adapter wählen.`,
  link_lost: ({ name, why }, say) =>
    `${name}: ${clause(why, say)}. Verbindet sich wieder; die Aufnahme läuft weiter, die Lücke ist vermerkt.`,
  link_back: ({ name, seconds }, say) => `${name} ist nach ${say.number(seconds, 1)} s ohne Daten wieder da.`,

  link_broke: 'die Funkverbindung ist abgerissen',
  service_stopped: 'der Bluetooth-Dienst des Rechners hat aufgehört',
  bus_ended: 'der Nachrichtenbus des Rechners hat aufgehört',
  page_opened_anew: 'die Seite, die ihn hält, wurde neu geöffnet',
  page_sends_nothing: 'der Browser, der ihn hält, sendet nichts mehr',
  link_to_browser_broke: 'die Funkverbindung zum Browser, der ihn hält, ist abgerissen',
  let_go_by_page: 'er wurde auf der Seite, die ihn hielt, losgelassen',
  no_data_for: ({ seconds }, say) => `seit ${say.number(seconds)} s keine Daten`,

  not_measured: ({ name, why }, say) => `${name} wird aufgenommen, aber nicht gemessen: ${say.notice(why)}`,
  not_measured_standing: ({ why }, say) => `Aufgenommen, aber nicht gemessen: ${say.notice(why)}`,
  other_mounting_measured: ({ mounting }) =>
    `Der Athlet trägt Sensoren an Schuh und Unterschenkel, gemessen werden die ${ON[mounting]}. Seine Daten bleiben in der Aufnahme.`,
  has_no_side: 'Er hat keine Seite, ein anderer Sensor dieses Athleten schon. Seine Seite angeben.',
  same_place: ({ side, mounting }) =>
    `Ein anderer Sensor dieses Athleten sitzt auch ${SIDE[side]} ${ON[mounting]}. Die Seite des einen neu angeben.`,

  description_warning: ({ description_id, field, words }, say) =>
    `Die Beschreibung ${description_id} lässt sich verwenden, doch ${field}: ${say.notice(words)}`,
  ...DESCRIPTION_REMARKS_DE,

  disk_full: ({ waiting, lost }, say) =>
    `Der Datenträger ist voll. ${fateOf(waiting, lost, say)} Jetzt Platz schaffen.`,
  disk_refuses: ({ problem, waiting, lost }, say) =>
    `Der Datenträger nimmt die Daten nicht an (${problem}). ${fateOf(waiting, lost, say)} Jetzt Platz schaffen.`,
  disk_low: ({ free_mb }, say) =>
    `Auf dem Datenträger sind nur ${say.number(free_mb, 0)} MB frei; zwei Sensoren brauchen etwa 90 MB je Stunde. Platz schaffen.`,

  started: ({ sensors }, say) =>
    `Nimmt ${say.number(sensors)} ${say.plural(sensors, { one: 'Sensor', other: 'Sensoren' })} auf.`,
  ended: 'Aufnahme beendet. Alle Pakete sind auf dem Datenträger.',
  waits_for_space: ({ packets }, say) =>
    `Die Sensoren sind angehalten, doch ${packetsOf(packets, say)} ${say.plural(packets, { one: 'wartet', other: 'warten' })} noch auf Platz. Sie werden geschrieben, sobald es welchen gibt: Platz schaffen und das Programm laufen lassen, oder sie aufgeben.`,
  given_up: ({ packets }, say) =>
    `Aufnahme beendet. ${packetsOf(packets, say)}, die der Datenträger nicht annahm, wurden aufgegeben.`,
  bluetooth_is_back: 'Bluetooth ist wieder da.',
  resumed: ({ stopped_utc, away_s }, say) =>
    `Das Programm endete um ${stopped_utc.slice(11, 19)} UTC und wurde ${say.number(away_s, 0)} s später wieder gestartet. Alles bis dahin ist da; die Zeit dazwischen ist als Lücke vermerkt, und die Aufnahme läuft weiter.`,
  recovered: ({ started_utc, repetitions }, say) =>
    `Das Programm endete während der Aufnahme von ${started_utc.slice(0, 16).replace('T', ' ')} UTC. Alles bis dahin ist da; ${say.number(repetitions)} ${say.plural(repetitions, { one: 'Lauf wurde', other: 'Läufe wurden' })} darin gefunden und gespeichert.`,
  capture_not_taken_up: ({ capture_id, why }, say) =>
    `Die Aufnahme ${capture_id} ließ sich nicht wieder aufnehmen${inBrackets(why, say)}. Ihre Pakete sind da; alles andere läuft.`,
  capture_unreadable: ({ capture_id, folder, why }, say) =>
    `Die Aufnahme ${capture_id} ist nicht lesbar${inBrackets(why, say)}. Ihre Aufzeichnungen liegen unverändert in ${folder}; alles andere läuft.`,
  record_of_other_form: 'ihre capture.json hat nicht die Form capture/1',
  record_lacks_fields: 'ihrer capture.json fehlen Felder',

  repetition: ({ who: name, contacts }, say) =>
    `${who(name)}: Lauf mit ${say.number(contacts)} ${say.plural(contacts, { one: 'Bodenkontakt', other: 'Bodenkontakten' })}.`,
  no_running: ({ who: name }) =>
    `${who(name)}: Zwischen Start und Stopp wurde kein Laufen gefunden. Die Daten sind beim Lauf aufgehoben.`,
  analysis_failed: ({ who: name, why }, say) =>
    `${who(name)}: Die laufende Auswertung ist gescheitert${inBrackets(why, say)}. Die Aufnahme läuft weiter und ist vollständig.`,
  not_stored: ({ who: name, why }, say) =>
    `${who(name)}: Der Lauf ließ sich nicht speichern${inBrackets(why, say)}. Seine Pakete sind da; es wird von selbst wieder versucht, alle 10 s und beim nächsten Start des Programms.`,
  stored_later: ({ who: name }) =>
    `${name ?? 'Jemand'}: Ein Lauf, der sich vorher nicht speichern ließ, ist jetzt gespeichert.`,
  samples_missing: ({ percent }, say) =>
    `${say.number(percent, 1)} % der Messwerte kamen nicht an; Bodenkontakte in den Lücken fehlen.`,

  waits_for_other_foot: ({ name, other, why }, say) =>
    `${name}: Seine Aufzeichnung ist da und wartet auf die von ${other} am anderen Fuß, die sich nicht holen ließ${inBrackets(why, say)}. Noch einmal holen, wenn ${other} in der Nähe ist, oder diese Seite auf der Seite Aufnahmen allein auswerten.`,
  feet_not_joined: ({ name, other }) =>
    `${name} und ${other}: Ihre Aufzeichnungen sind da, lassen sich aber nicht auf eine Uhr bringen; zu wenig vom selben Laufen ist in beiden. Jede lässt sich auf der Seite Aufnahmen allein auswerten.`,
};

function fateOf(waiting: number, lost: number, say: Speech): string {
  return lost > 0
    ? `${packetsOf(lost, say)} sind verloren; ${say.number(waiting)} warten im Speicher.`
    : `${packetsOf(waiting, say)} warten im Speicher (Platz für etwa 40 Minuten) und werden geschrieben, sobald es geht.`;
}

function rateWords(
  { nominal_hz, rate_hz, by }: { nominal_hz: number; rate_hz: number; by: 'stamps' | 'arrival' },
  say: Speech,
): string {
  const off = 100 * (rate_hz / nominal_hz - 1);
  const what = `Er sendet ${say.number(rate_hz, 1)} Messwerte je Sekunde, nicht ${say.number(nominal_hz)} (${off > 0 ? '+' : ''}${say.number(off, 1)} %)`;
  return by === 'stamps'
    ? `${what}, nach seiner eigenen Uhr. Die Zeiten gehen nach ihr; Kontaktzeiten stimmen, wenn sie stimmt.`
    : `${what}, nach der Uhr dieses Rechners. Die Zeiten gehen nach der gemessenen Rate.`;
}
