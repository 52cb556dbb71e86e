import { countsText, type CallWords } from './call-language.ts';
import { decimalComma } from './language.ts';

const COUNTS = {
  weak: (count: number) => `${count} ${count === 1 ? 'faible' : 'faibles'}`,
  unproven: (count: number) => `${count} sans preuve`,
  missed: (count: number) => `${count} ${count < 2 ? 'manqué' : 'manqués'}`,
  withheld: (count: number) => `${count} ${count === 1 ? 'retenu' : 'retenus'}`,
};

export const FRENCH_CALLS: CallWords = {
  names: {
    'missed-flood': 'arrosage manqué',
    'weak-flow': 'arrosage faible',
    'return-lower': 'retour plus faible',
    'mains-lost': 'secteur coupé',
    'pump-runs-on': "la pompe ne s'arrête pas",
    'tank-low': 'cuve basse',
    'float-suspect': 'flotteur douteux',
    'tank-falls': 'cuve qui se vide',
    'tank-full': 'cuve pleine à ras',
    'strength-off': 'force hors de ses bornes',
    'water-on-floor': 'eau au sol',
    'flow-sensor-silent': 'capteur de débit muet',
    'flow-sensor-stuck': 'capteur de débit bloqué',
    'clock-stepped': 'horloge en doute',
    'no-good-temperature': 'pas de température fiable',
    'hold-is-long': 'arrêt long',
    'drying-out': 'tables qui sèchent',
    'board-silent': 'carte muette',
    'channel-dead': "une voie d'appel est en panne",
    'not-recording': "rien n'est enregistré",
    'safe-mode': 'mode minimal',
    'past-unread': "ce qui était connu n'est pas lu",
    'clock-drift': 'horloges en désaccord',
    'relay-chatters': 'relais qui claque',
    'float-unmoved': 'flotteur immobile',
    'line-bad': 'mauvaise ligne vers la carte',
    'host-hot': 'ordinateur trop chaud',
    'host-large': "mémoire de l'ordinateur",
    'host-battery': "batterie de l'ordinateur",
  },
  openings: {
    raised: '',
    again: 'Toujours : ',
    escalated: "Personne n'a encore répondu : ",
    returned: 'Terminé : ',
  },
  briefOpenings: { raised: '', again: 'Toujours : ', escalated: 'Sans réponse : ', returned: 'Terminé : ' },
  comesAndGoes: 'Cela va et vient.',
  lists: { with: 'Avec cela :', still: 'Toujours :', over: 'Terminé :', first: "D'abord :" },
  allWell: 'Tout va bien.',
  floods: (counts) =>
    `${counts.confirmed} ${counts.confirmed < 2 ? 'arrosage confirmé' : 'arrosages confirmés'} en 24 h, ${countsText(counts, COUNTS)}.`,
  tank: (tank) =>
    typeof tank === 'number' ? `Cuve ${tank.toFixed(0)} L.` : `Cuve ${tank === 'well' ? 'bien' : 'basse'}.`,
  strength: (strength) => `Force ${decimalComma(strength.toFixed(1))} mS/cm.`,
  withoutPump: (span) => `Sans la pompe : ${span === null ? "plus d'un jour" : `environ ${span}`}.`,
};
