import type { cautionPhrases } from '../../en/coach/cautions.ts';
import type { PhrasesLike } from '../../sentence.ts';

export const cautionPhrases_de: PhrasesLike<typeof cautionPhrases> = {
  MEASURES_ONLY:
    'Cinderlane misst; es stellt keine Diagnose. Ein längerer Bodenkontakt oder ein Unterschied zwischen den Seiten ist für sich allein kein Zeichen einer Verletzung.',
  STOP_ON_PAIN:
    'Plötzlicher Schmerz hinten im Oberschenkel, in Hüfte oder Leiste, ein Knacken, ein Hinken oder Schmerz in Ruhe: aufhören, einem Erwachsenen Bescheid sagen, ärztlich abklären lassen. Nie darüber hinweg laufen.',
  MINORS:
    'Minderjährige trainieren unter Aufsicht eines verantwortlichen Erwachsenen. Örtliche Regeln und die Anweisungen von Fachleuten gehen vor.',
  RETURNING:
    'Rückkehr nach einer Verletzung: es wird nicht verglichen. Das Sprinten kommt Schritt für Schritt zurück, wie es die behandelnden Fachleute sagen; fast ein Drittel der Verletzungen der hinteren Oberschenkelmuskeln kommt innerhalb eines Jahres wieder.',
  ADULT_FIGURES:
    'Die Zahlen von Haugen 2019 stammen von erwachsenen Spitzensprintern: Grenzen, unter denen man bleibt, kein Ziel, und keines für Minderjährige. Nach einer Pause Schritt für Schritt zurückkommen: weniger Läufe, unter vollem Tempo.',
  HEAT: 'An heißen Tagen: längere Pausen, Schatten und Wasser, und alle anhalten, die an die Hitze nicht gewöhnt sind. Die örtlichen Hitzeregeln befolgen.',
  STRENGTH_SUPERVISED:
    'Krafttraining von Minderjährigen braucht eine fachkundige Person daneben: 2 bis 3 nicht aufeinander folgende Tage je Woche, leicht beginnen, kleine Schritte.',
};
