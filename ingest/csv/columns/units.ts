import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';
import { significant } from './significant.ts';

export type UnitKind = 'acc' | 'gyr' | 'time' | 'other';
export interface Unit {
  kind: UnitKind;
  unit: string;
  /** One unit in m/s2, rad/s or seconds; 0 for units that only tell that a column is something else. */
  to_si: number;
}

const G = STANDARD_GRAVITY_MPS2;
const D = RADIANS_PER_DEGREE;

/** Spellings after `plainUnit`: lower case, without blanks, brackets or signs of power. */
const UNITS: Record<string, Unit> = Object.create(null);
const add = (kind: UnitKind, unit: string, to_si: number, spellings: string) => {
  for (const spelling of spellings.split(' ')) UNITS[spelling] = { kind, unit, to_si };
};
add('acc', 'g', G, "g gs g's g0 gn gee grav gforce g-force");
add('acc', 'mg', G / 1000, 'mg millig milli-g mgee milligs');
add('acc', 'ug', G / 1e6, 'ug microg micro-g');
add(
  'acc',
  'm/s2',
  1,
  'm/s2 mps2 ms2 ms-2 m/s/s m*s-2 m.s-2 mpss m/sec2 m/sek2 mpersec2 meterspersecondsquared mss м/с2 米/秒2 メートル/秒2 m/s**2 meter/s2 meters/s2 metres/s2 m/sek.2 م/ث2',
);
add('acc', 'cm/s2', 0.01, 'cm/s2 cmps2 cms2 cm/s/s cms-2 gal');
add('acc', 'mm/s2', 0.001, 'mm/s2 mmps2 mms2 mm/s/s mms-2');
add('acc', 'dm/s2', 0.1, 'dm/s2 dms-2');
add('acc', 'km/h/s', 1 / 3.6, 'km/h/s kph/s kmh/s');
add('acc', 'ft/s2', 0.3048, 'ft/s2 ftps2 ft/s/s');
add('acc', 'in/s2', 0.0254, 'in/s2 inch/s2 inches/s2 in/s/s');
add(
  'gyr',
  'deg/s',
  D,
  'deg/s degs deg/sec dps grade/s derajat/s degré/s stupnjeva/s graus/s derece/s astetta/s grader/s graden/s stopni/s stupen/s fok/s μοιρεσ/s 度/秒 度/s deg/с гр/с degree/s degree/sec degree/second degrees/sec degrees.s-1 grad.s-1 deg/sek degps degpersec degpersecond degrees/s degrees/second degs-1 grad/s grados/s gradi/s градусов/с град/с deg/с degres/s deg*s-1 درجة/ث',
);
add('gyr', 'mdeg/s', D / 1000, 'mdeg/s mdps mdeg.s-1 millideg/s millidegrees/s milli-deg/s mdegps mdegs');
add('gyr', 'kdeg/s', 1000 * D, 'kdps kdeg/s');
add(
  'gyr',
  'rad/s',
  1,
  'rad/s rads radps rad/sec rads-1 radpersec radpersecond radians/s rad*s-1 rad.s-1 rad/sek radian/s radian/sec radians/sec рад/с ラジアン/秒 弧度/秒 rad/с راديان/ث',
);
add('gyr', 'mrad/s', 0.001, 'mrad/s mradps');
add('gyr', 'rev/min', Math.PI / 30, 'rpm rev/min u/min r/min turns/min');
add('gyr', 'rev/s', 2 * Math.PI, 'rev/s revs/s rps r/s u/s turns/s turn/s');
add('gyr', 'deg/min', D / 60, 'deg/min degrees/min');
add('gyr', 'deg/h', D / 3600, 'deg/h degrees/h deg/hr');
add('gyr', 'cdeg/s', D / 100, 'cdeg/s cdps centideg/s');
add('time', 's', 1, 's sec secs second seconds sek sekunden seconde secondes segundos secondi с сек 秒 초 ث ثانية');
add(
  'time',
  'ms',
  1e-3,
  'ms msec msecs millis millisec milliseconds millisecond millisekunden milisegundos millisecondi мс 毫秒 ミリ秒',
);
add('time', 'us', 1e-6, 'us usec usecs micros microsec microseconds microsecond мкс');
add('time', 'ns', 1e-9, 'ns nsec nanos nanosec nanoseconds nanosecond');
add('time', '10 us', 1e-5, '10us 10usec');
add('time', '100 us', 1e-4, '100us');
add('time', '0.1 ms', 1e-4, '0.1ms');
add('time', '100 ns', 1e-7, '100ns');
add('time', 'min', 60, 'min minutes minuten мин');
add('time', 'h', 3600, 'h hr hrs hours hour stunden std heures horas ore');
add('time', 'd', 86400, 'days tage');
add(
  'other',
  'other',
  0,
  'ut mt gauss mgauss nt hpa pa mbar kpa c degc celsius f m mm cm km v mv % deg rad lux db dbm n kn bpm hz',
);
add('other', 'counts', 0, 'lsb counts count raw adc digit digits');
add('other', 'ticks', 0, 'ticks tick clk clock');

/** Removes brackets, blanks and typographic signs so that a unit has one spelling. */
export function plainUnit(text: string): string {
  return text
    .trim()
    .replace(/^[[({<]{1,3}/, '')
    .replace(/[\])}>]{1,3}$/, '')
    .replace(/[°˚º]/g, 'deg')
    .replace(/[·⋅∙•]/g, '')
    .normalize('NFKC')
    .replace(/[µμ]/g, 'u')
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .normalize('NFC')
    .replace(/[−–]/g, '-')
    .replace(/[²]|\^2|\*\*2/g, '2')
    .replace(/\^-1/g, '-1')
    .replace(/\^-2/g, '-2')
    .replace(/[\s^_]/g, '')
    .toLowerCase();
}

/** The unit a piece of text spells, or null. Case matters nowhere but in 'Mg', which nobody means. */
export function readUnit(text: string): Unit | null {
  return plainly(text) ?? plainly(inSigns(text)) ?? scaled(text);
}

function plainly(text: string): Unit | null {
  const plain = plainUnit(text);
  return UNITS[plain] ?? UNITS[plain.replace(/[.*]?s-1$/, '/s').replace(/[.*]?s-2$/, '/s2')] ?? null;
}

/** Words as signs: `degrees per second`, `metre per second squared`, `meters/second^2`, `m/(s^2)`. */
function inSigns(text: string): string {
  return text
    .toLowerCase()
    .replace(/\bper\b/g, '/')
    .replace(/\bsecond(s)?\b/g, 's')
    .replace(/\bminutes?\b/g, 'min')
    .replace(/\bhours?\b/g, 'h')
    .replace(/\bmet(er|re)s?\b/g, 'm')
    .replace(/\bradians?\b/g, 'rad')
    .replace(/\bdegrees?\b/g, 'deg')
    .replace(/\bsquared?\b/g, '2')
    .replace(/[()]/g, '');
}

const POWER = /^(?:[x×*·]\s{0,3})?10\s{0,3}(?:\^|\*\*)\s{0,3}\{?\s{0,3}([-−]?\d)\}?\s{0,3}[*·x×]?\s{0,3}(\D.*)$/i;
const SHARE =
  /^(?:[x×*·]\s{0,3})?(?:(\d+)\s{0,3}\/\s{0,3}(\d+)|(\d+(?:[.,]\d+)?(?:e[-+]?\d+)?))\s{0,3}[*·x×]?\s{0,3}(\D.*)$/i;
const TIMES = /^(\D.*?)\s{0,3}[*·x×]\s{0,3}(\d+)$/i;

/** A unit with a factor: `0.001 g`, `1/1000 g`, `10^-3 g`, and `g*1000`, which says what the numbers were multiplied by. */
function scaled(text: string): Unit | null {
  const plain = text.trim().replace(/[⁻−]/g, '-');
  const [power, share, times] = [POWER, SHARE, TIMES].map((pattern) => pattern.exec(plain));
  if (power) return timesUnit(10 ** Number(power[1]), power[2]);
  if (share)
    return timesUnit(share[3] ? Number(share[3].replace(',', '.')) : Number(share[1]) / Number(share[2]), share[4]);
  return times ? timesUnit(1 / Number(times[2]), times[1]) : null;
}

function timesUnit(factor: number, name: string): Unit | null {
  const unit = plainly(name) ?? plainly(inSigns(name));
  // '16 g' and '2000 dps' are ranges: a factor is a tenth, hundredth, thousandth, ...
  const tenths = -Math.log10(factor);
  const isFactor = tenths > 0.5 && tenths < 9.5 && Math.abs(tenths - Math.round(tenths)) < 1e-9;
  if (!unit || (unit.kind !== 'acc' && unit.kind !== 'gyr') || !isFactor) return null;
  return { ...unit, unit: `${significant(factor, 6)} ${unit.unit}`, to_si: unit.to_si * factor };
}

export function isUnit(text: string): boolean {
  return readUnit(text) !== null;
}
