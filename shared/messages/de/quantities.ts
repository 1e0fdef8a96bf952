/** Name and definition of quantities, by the English label. Long words may part at their soft hyphens. */
export const QUANTITIES_DE: { readonly [label: string]: readonly [name: string, definition: string] } = {
  'contacts missing': [
    'fehlende Bodenkontakte',
    'Bodenkontakte der aufgezeichneten Füße, die gelaufen und nicht gefunden wurden, nach den Schrittdauern um sie herum.',
  ],
  'contact length': [
    'Bodenkontaktweg',
    'Weg des Körpers während des Bodenkontakts: Geschwindigkeit mal Bodenkontaktzeit.',
  ],
  'contact time': ['Bodenkontakt\u00ADzeit', 'Abdruck minus Aufsetzen desselben Fußes.'],
  'contact time, left minus right': [
    'Bodenkontaktzeit, links minus rechts',
    'Bodenkontaktzeit des linken Fußes minus die des rechten, Mittel über benachbarte Schritte bei Tempo: was sich im Lauf ändert, ist kein Unterschied der Seiten.',
  ],
  distance: ['Strecke', 'Weg des Körpers von der Startlinie beim Aufsetzen.'],
  'duty factor': ['Stützanteil', 'Bodenkontaktzeit / Doppelschrittdauer desselben Fußes.'],
  'end of acceleration': [
    'Ende der Beschleunigung',
    'Strecke vom Start bis zum ersten Bodenkontakt bei Höchstgeschwindigkeit.',
  ],
  'flight time': [
    'Flugzeit',
    'Nächstes Aufsetzen des anderen Fußes minus dieser Abdruck; nicht über null heißt: kein Flug.',
  ],
  'fold in swing': [
    'Beugung im Schwung',
    'Größte Rückwärtsdrehung des Segments im folgenden Schwung, ab seinem Winkel in der Mitte des Bodenkontakts.',
  ],
  'foot pitch at toe-off': [
    'Fußneigung beim Abdruck',
    'Neigung des Fußes beim Abdruck, Ferse hoch positiv; null ist die mittlere Neigung bei 40 % des Bodenkontakts.',
  ],
  'foot pitch at touchdown': [
    'Fußneigung beim Aufsetzen',
    'Neigung des Fußes beim Aufsetzen, Ferse hoch positiv; null ist die mittlere Neigung bei 40 % des Bodenkontakts.',
  ],
  'foot progression': [
    'Fußstellung (auswärts)',
    'Winkel des Fußes zur Laufrichtung bei 40 % des Bodenkontakts, Zehen auswärts positiv.',
  ],
  'heel recovery height': [
    'Anfershöhe',
    'Größte Höhe des Fußsensors im folgenden Schwung über seiner Höhe in der Mitte des Bodenkontakts.',
  ],
  'leg stiffness': [
    'Beinsteifigkeit',
    'Größte Kraft durch die Verkürzung des Beins, Modell einer Sinuswelle der Kraft.',
  ],
  'maximum speed': ['Höchst\u00ADgeschwindigkeit', 'Größte Geschwindigkeit des Laufs.'],
  'mean vertical force': [
    'mittlere Vertikalkraft',
    'Mittlere senkrechte Bodenkraft im Bodenkontakt im Verhältnis zum Körpergewicht: (Bodenkontaktzeit + Flugzeit) / Bodenkontaktzeit.',
  ],
  'peak contact rate': [
    'größte Drehrate im Kontakt',
    'Größte Drehrate des Segments im Bodenkontakt, während die Ferse steigt (Fuß) oder das Knie nach vorn geht (Unterschenkel).',
  ],
  'peak swing rate': ['größte Drehrate im Schwung', 'Größte Vorwärtsdrehrate des Segments im folgenden Schwung.'],
  'repeatable error of contact time': [
    'wiederkehrender Fehler der Bodenkontaktzeit',
    'Der Teil von contact_time_ms_u, der sich von Bodenkontakt zu Bodenkontakt eines Fußes ändert. Der Rest ist für alle Bodenkontakte eines Fußes mit einem Sensor gleich: er fällt aus einer Änderung bei einem Athleten heraus.',
  ],
  'shank angle at touchdown': [
    'Unterschenkelwinkel beim Aufsetzen',
    'Winkel des Unterschenkels zur Senkrechten beim Aufsetzen; positiv: Fuß vor dem Knie.',
  ],
  'shank rotation': ['Unterschenkeldrehung', 'Vorwärtsdrehung des Unterschenkels vom Aufsetzen bis zum Abdruck.'],
  speed: ['Geschwindig\u00ADkeit', 'Mittlere Geschwindigkeit über den Schritt: Schrittlänge / Schrittdauer.'],
  'step length': ['Schrittlänge', 'Weg des Körpers von diesem Aufsetzen bis zum nächsten Aufsetzen des anderen Fußes.'],
  'step rate': ['Schrittfrequenz', 'Schritte je Sekunde: 1 / Schrittdauer.'],
  'step time': ['Schrittdauer', 'Nächstes Aufsetzen des anderen Fußes minus dieses Aufsetzen.'],
  'step time, left minus right': [
    'Schrittdauer, links minus rechts',
    'Dauer des Schritts, der mit dem linken Fuß beginnt, minus die des rechten, Mittel über benachbarte Schritte bei Tempo.',
  ],
  'stride length': [
    'Doppelschritt\u00ADlänge',
    'Weg des Fußes von diesem Bodenkontakt bis zum nächsten desselben Fußes.',
  ],
  'stride time': ['Doppelschrittdauer', 'Nächstes Aufsetzen desselben Fußes minus dieses Aufsetzen.'],
  'swing time': ['Schwungzeit', 'Nächstes Aufsetzen desselben Fußes minus dieser Abdruck.'],
  time: ['Zeit', 'Zeit über die Strecke, wie gemessen.'],
  'toe-off': ['Abdruck', 'Letzter Augenblick dieses Bodenkontakts, Sekunden ab dem ersten Messwert.'],
  touchdown: [
    'Aufsetzen',
    'Erster Augenblick des Fußes am Boden: Vertikalkraft über 50 N. Sekunden ab dem ersten Messwert.',
  ],
  'vertical stiffness': [
    'vertikale Steifigkeit',
    'Größte Kraft durch das Absinken des Körpers, Modell einer Sinuswelle der Kraft.',
  ],
};
