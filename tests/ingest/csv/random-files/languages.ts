/**
 * How people call what a movement sensor writes, by language: as teachers, students and loggers put it into the first line of a
 * table. Written from the languages, not from what the reader knows.
 */
export interface Language {
  name: string;
  acc: string[];
  gyr: string[];
  time: string[];
  /** A column that is neither: it must be left alone. */
  other: string[];
  left: string[];
  right: string[];
  /** Word for "axis", where the language likes to add it. */
  axis: string;
  /** Code pages in which files of this language are met, besides Unicode. */
  pages: string[];
  accUnits: Partial<Record<'g' | 'mg' | 'm/s2', string[]>>;
  gyrUnits: Partial<Record<'deg/s' | 'rad/s', string[]>>;
}

const latin = ['windows-1252'];
const language = (
  name: string,
  acc: string,
  gyr: string,
  time: string,
  other: string,
  left: string,
  right: string,
  more: Partial<Language> = {},
): Language => ({
  name,
  acc: acc.split('|'),
  gyr: gyr.split('|'),
  time: time.split('|'),
  other: other.split('|'),
  left: left.split('|'),
  right: right.split('|'),
  axis: '',
  pages: latin,
  accUnits: {},
  gyrUnits: {},
  ...more,
});

export const LANGUAGES: Language[] = [
  language(
    'English',
    'Acceleration|Accelerometer|Accel|Acc|acc|accel',
    'Gyroscope|Gyro|gyro|Gyr|gyr|Angular Velocity|Angular Rate|Rotation Rate|AngVel',
    'time|Time|timestamp|t|Elapsed Time',
    'Temperature|Battery|Pressure',
    'left|Left|L',
    'right|Right|R',
    { axis: 'axis' },
  ),
  language(
    'German',
    'Beschleunigung|Beschl|Beschleunigungssensor|Acc',
    'Drehrate|Winkelgeschwindigkeit|Gyroskop|Drehgeschwindigkeit|Gyro',
    'Zeit|Zeitstempel|Uhrzeit|t',
    'Temperatur|Batterie|Luftdruck',
    'links|Links',
    'rechts|Rechts',
    { axis: 'Achse', gyrUnits: { 'deg/s': ['Grad/s', '°/s'] } },
  ),
  language(
    'French',
    'Accélération|Accéléromètre|Accel|Acc',
    'Gyroscope|Vitesse angulaire|Vit. ang.|Gyro',
    'Temps|Horodatage|t',
    'Température|Pression|Batterie',
    'gauche|Gauche',
    'droite|Droite',
    { axis: 'axe', gyrUnits: { 'deg/s': ['degrés/s', '°/s'] } },
  ),
  language(
    'Spanish',
    'Aceleración|Acelerómetro|acel|Acel',
    'Giroscopio|Velocidad angular|giro|Vel. angular|Giróscopo',
    'Tiempo|Marca de tiempo|t',
    'Temperatura|Batería|Presión',
    'izquierda|izq|Izquierdo',
    'derecha|der|Derecho',
    { axis: 'eje', gyrUnits: { 'deg/s': ['grados/s', '°/s'] } },
  ),
  language(
    'Portuguese',
    'Aceleração|Acelerômetro|Acel',
    'Giroscópio|Velocidade angular|Giro|Vel. ang.',
    'Tempo|Carimbo de tempo',
    'Temperatura|Bateria|Pressão',
    'esquerda|esq',
    'direita|dir',
    { axis: 'eixo', gyrUnits: { 'deg/s': ['graus/s', '°/s'] } },
  ),
  language(
    'Italian',
    'Accelerazione|Accelerometro|Acc',
    'Giroscopio|Velocità angolare|Vel. ang.|Giro',
    'Tempo|Marca temporale',
    'Temperatura|Batteria|Pressione',
    'sinistra|sx',
    'destra|dx',
    { axis: 'asse', gyrUnits: { 'deg/s': ['gradi/s', '°/s'] } },
  ),
  language(
    'Dutch',
    'Versnelling|Versnellingsmeter|Acc',
    'Gyroscoop|Hoeksnelheid|Rotatiesnelheid',
    'Tijd|Tijdstempel',
    'Temperatuur|Batterij',
    'links',
    'rechts',
    { axis: 'as', gyrUnits: { 'deg/s': ['graden/s', '°/s'] } },
  ),
  language(
    'Polish',
    'Przyspieszenie|Akcelerometr|Przysp',
    'Żyroskop|Prędkość kątowa|Zyroskop|Pr. kątowa',
    'Czas|Znacznik czasu',
    'Temperatura|Bateria',
    'lewa|lewy|Lewa',
    'prawa|prawy|Prawa',
    { axis: 'oś', pages: ['windows-1250', 'iso-8859-2'] },
  ),
  language(
    'Czech',
    'Zrychlení|Akcelerometr',
    'Gyroskop|Úhlová rychlost|Uhl. rychlost',
    'Čas|Časová značka',
    'Teplota|Baterie',
    'levá',
    'pravá',
    { axis: 'osa', pages: ['windows-1250'] },
  ),
  language(
    'Turkish',
    'İvme|İvmeölçer|ivme|Ivme',
    'Jiroskop|Açısal hız|Açısal Hız|Dönü ölçer',
    'Zaman|Süre|Zaman damgası',
    'Sıcaklık|Pil',
    'sol|Sol',
    'sağ|Sağ',
    { axis: 'ekseni', pages: ['windows-1254'], gyrUnits: { 'deg/s': ['derece/s', '°/s'] } },
  ),
  language(
    'Russian',
    'Ускорение|Акселерометр|Уск',
    'Гироскоп|Угловая скорость|Угл. скорость|Гиро',
    'Время|Метка времени|т',
    'Температура|Батарея',
    'левая|Левая нога',
    'правая|Правая нога',
    {
      axis: 'ось',
      pages: ['windows-1251', 'koi8-r'],
      accUnits: { 'm/s2': ['м/с²', 'м/с2'] },
      gyrUnits: { 'deg/s': ['град/с', '°/с'], 'rad/s': ['рад/с'] },
    },
  ),
  language(
    'Ukrainian',
    'Прискорення|Акселерометр',
    'Гіроскоп|Кутова швидкість',
    'Час|Мітка часу',
    'Температура|Батарея',
    'ліва|Ліва',
    'права|Права',
    {
      axis: 'вісь',
      pages: ['windows-1251'],
      accUnits: { 'm/s2': ['м/с²'] },
      gyrUnits: { 'deg/s': ['град/с', '°/с'], 'rad/s': ['рад/с'] },
    },
  ),
  language(
    'Finnish',
    'Kiihtyvyys|Kiihtyvyysanturi',
    'Kulmanopeus|Gyroskooppi',
    'Aika|Aikaleima',
    'Lämpötila|Akku',
    'vasen',
    'oikea',
    { axis: 'akseli', gyrUnits: { 'deg/s': ['astetta/s', '°/s'] } },
  ),
  language(
    'Swedish',
    'Acceleration|Accelerometer',
    'Vinkelhastighet|Gyroskop',
    'Tid|Tidsstämpel',
    'Temperatur|Batteri',
    'vänster',
    'höger',
    { axis: 'axel', gyrUnits: { 'deg/s': ['grader/s', '°/s'] } },
  ),
  language(
    'Norwegian',
    'Akselerasjon|Akselerometer',
    'Vinkelhastighet|Gyroskop|Rotasjon',
    'Tid|Tidspunkt',
    'Temperatur|Batteri',
    'venstre',
    'høyre',
    { axis: 'akse' },
  ),
  language(
    'Hungarian',
    'Gyorsulás|Gyorsulásmérő',
    'Szögsebesség|Giroszkóp',
    'Idő|Időbélyeg',
    'Hőmérséklet|Akkumulátor',
    'bal',
    'jobb',
    { axis: 'tengely', pages: ['windows-1250', 'iso-8859-2'] },
  ),
  language(
    'Greek',
    'Επιτάχυνση|Επιταχυνσιόμετρο',
    'Γυροσκόπιο|Γωνιακή ταχύτητα',
    'Χρόνος',
    'Θερμοκρασία|Μπαταρία',
    'αριστερό|αριστερά',
    'δεξί|δεξιά',
    { axis: 'άξονας', pages: ['windows-1253'] },
  ),
  language(
    'Japanese',
    '加速度|加速度センサ',
    '角速度|ジャイロ|ジャイロセンサ',
    '時刻|時間|タイムスタンプ',
    '温度|電池',
    '左|左足',
    '右|右足',
    {
      axis: '軸',
      pages: ['shift_jis', 'euc-jp'],
      gyrUnits: { 'deg/s': ['度/秒', 'deg/s'] },
    },
  ),
  language('Chinese', '加速度|加速度计', '角速度|陀螺仪', '时间|时间戳', '温度|电量', '左|左脚', '右|右脚', {
    axis: '轴',
    pages: ['gbk', 'gb18030'],
    accUnits: { 'm/s2': ['米/秒²', 'm/s²'] },
    gyrUnits: { 'deg/s': ['度/秒', '°/s'] },
  }),
  language(
    'Korean',
    '가속도|가속도계',
    '각속도|자이로|자이로스코프',
    '시간|타임스탬프',
    '온도|배터리',
    '왼쪽|왼발',
    '오른쪽|오른발',
    {
      axis: '축',
      pages: ['euc-kr'],
    },
  ),
];

/** Languages that the first twenty were widened by; kept apart since a file's seed draws from both. */
export const MORE_LANGUAGES: Language[] = [
  language(
    'Danish',
    'Acceleration|Accelerometer',
    'Vinkelhastighed|Gyroskop|Rotation',
    'Tid|Tidsstempel',
    'Temperatur|Batteri',
    'venstre',
    'højre',
    { axis: 'akse' },
  ),
  language(
    'Romanian',
    'Accelerație|Accelerometru|Accel',
    'Giroscop|Viteză unghiulară|Vit. unghiulară',
    'Timp|Marcaj de timp',
    'Temperatură|Baterie',
    'stânga|stang',
    'dreapta|drept',
    { axis: 'axa', pages: ['windows-1250', 'iso-8859-2'], gyrUnits: { 'deg/s': ['grade/s', '°/s'] } },
  ),
  language(
    'Croatian',
    'Ubrzanje|Akcelerometar|Akceleracija',
    'Žiroskop|Kutna brzina|Ziroskop',
    'Vrijeme|Vremenska oznaka',
    'Temperatura|Baterija',
    'lijeva|lijevo',
    'desna|desno',
    { axis: 'os', pages: ['windows-1250'] },
  ),
  language(
    'Indonesian',
    'Percepatan|Akselerometer|Akselerasi',
    'Giroskop|Kecepatan sudut',
    'Waktu|Cap waktu',
    'Suhu|Baterai',
    'kiri|Kiri',
    'kanan|Kanan',
    { axis: 'sumbu' },
  ),
  language(
    'Vietnamese',
    'Gia tốc|Gia tốc kế',
    'Con quay hồi chuyển|Vận tốc góc|Tốc độ góc',
    'Thời gian|Dấu thời gian',
    'Nhiệt độ|Pin',
    'trái|Trái',
    'phải|Phải',
    { axis: 'trục', pages: ['utf-8'] },
  ),
  language(
    'Arabic',
    'التسارع|تسارع',
    'السرعة الزاوية|الجيروسكوب',
    'الوقت|الزمن',
    'الحرارة',
    'اليسار|يسار',
    'اليمين|يمين',
    {
      axis: 'محور',
      pages: ['windows-1256'],
    },
  ),
  language('Hebrew', 'תאוצה|מד תאוצה', "מהירות זוויתית|ג'ירוסקופ", 'זמן', 'טמפרטורה', 'שמאל', 'ימין', {
    axis: 'ציר',
    pages: ['windows-1255'],
  }),
  language('Thai', 'ความเร่ง', 'ความเร็วเชิงมุม|ไจโรสโคป', 'เวลา', 'อุณหภูมิ', 'ซ้าย', 'ขวา', {
    axis: 'แกน',
    pages: ['windows-874'],
  }),
];

/** Units as they are spelled anywhere. */
export const ACC_UNITS: Record<'g' | 'mg' | 'ug' | 'm/s2' | 'cm/s2', string[]> = {
  g: ['g', 'G', 'g', "g's"],
  mg: ['mg', 'milli-g', 'mG'],
  ug: ['µg', 'ug', 'μg'],
  'm/s2': ['m/s²', 'm/s^2', 'm/s2', 'm·s⁻²', 'm.s-2', 'm/s/s', 'mps2', 'm s^-2', 'ｍ/ｓ２'],
  'cm/s2': ['cm/s²', 'cm/s^2', 'gal'],
};
export const GYR_UNITS: Record<'deg/s' | 'rad/s' | 'mdeg/s', string[]> = {
  'deg/s': ['deg/s', '°/s', 'dps', 'º/s', 'deg.s-1', 'deg/sec', '°·s⁻¹', 'degrees/s', '°s^-1', 'deg s⁻¹'],
  'rad/s': ['rad/s', 'rad·s⁻¹', 'rad.s-1', 'rad/sec', 'rads', 'rad s^-1', 'radian/s'],
  'mdeg/s': ['mdps', 'mdeg/s', 'm°/s'],
};
