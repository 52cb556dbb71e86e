import type { FactsOfKind } from '../facts.ts';
import { decimalComma, type PartTexts } from './language.ts';
import { strengthOffBrief, strengthOffCard } from './strength-off.ts';
import { RETURN_LOWER } from './return-lower.ts';
import { TANK_FALLS } from './tank-falls.ts';
import { TANK_FULL } from './tank-full.ts';

const share = ({ oneIn }: FactsOfKind['line-bad']): string =>
  oneIn < 2 ? 'presque tout arrive abîmé' : `un message sur ${oneIn} arrive abîmé`;

const charge = ({ percent, volts }: FactsOfKind['host-battery']): string =>
  volts === null ? `${percent} %` : `${percent} %, ${decimalComma(volts.toFixed(1))} V`;

/** Alarms about parts that fail before the water does. */
export const frenchParts: PartTexts = (since) => ({
  cards: {
    'tank-falls': TANK_FALLS.fr.card,
    'tank-full': TANK_FULL.fr.card,
    'strength-off': strengthOffCard('fr', since),
    'return-lower': RETURN_LOWER.fr.card,
    'relay-chatters': (facts) => ({
      cause: `Le contact du relais de la pompe claque sans cesse ${since(facts.since)} : huit changements ou plus en une minute.`,
      consequence: "Ses contacts s'usent et chauffent : risque d'incendie.",
      firstAction:
        "Débranchez la pompe avant que quiconque ouvre le boîtier, et rebranchez-la à la fin ; le secteur est l'affaire d'un électricien habilité.",
    }),
    'float-unmoved': (facts) => ({
      cause: `Le flotteur de la cuve n'a pas bougé depuis ${facts.days} jours.`,
      consequence: 'Un flotteur coincé paraît pareil, et ne dirait pas que la cuve se vide.',
      firstAction:
        "Débranchez la pompe, levez et baissez le flotteur à la main, voyez si l'état le suit, et rebranchez-la.",
    }),
    'line-bad': (facts) => ({
      cause: `La ligne vers la carte est mauvaise ${since(facts.since)} : ${share(facts)}.`,
      consequence: "Ce qui arrive abîmé est écarté ; si cela empire, l'ordinateur perd la carte.",
      firstAction:
        'Voyez le câble de la carte : ses fiches, sa longueur, sa distance au câble secteur de la pompe. Déplacez celui de la carte, pas celui de la pompe.',
    }),
    'host-hot': (facts) => ({
      cause: `La puce de l'ordinateur est trop chaude ${since(facts.since)} : maintenant ${facts.celsius.toFixed(0)} °C.`,
      consequence: "L'ordinateur peut ralentir, ou s'arrêter.",
      firstAction:
        "Mains sèches : donnez-lui de l'ombre et de l'air, dépoussiérez-le, et ne lui donnez pas d'autre travail.",
    }),
    'host-large': (facts) => ({
      cause: `Le programme de l'ordinateur occupe trop de mémoire ${since(facts.since)} : maintenant ${facts.megabytes.toFixed(0)} Mo.`,
      consequence:
        facts.renewed === 'by-itself'
          ? "Il s'arrête de lui-même entre deux arrosages, la nuit s'il peut attendre, et redémarre aussitôt."
          : "Il peut être coupé au milieu d'un arrosage.",
      firstAction:
        facts.renewed === 'by-itself'
          ? 'Rien à faire pour le moment ; si cela revient, signalez-le comme défaut.'
          : 'Arrêtez-le entre deux arrosages et redémarrez-le ; puis signalez-le comme défaut.',
    }),
    'host-battery': (facts) => ({
      cause: `La batterie de l'ordinateur se vide ${since(facts.since)} : maintenant ${charge(facts)}.`,
      consequence:
        "Vide, l'ordinateur s'arrête et n'appelle plus : une carte avec son propre programme continue d'arroser, une carte ordinaire non.",
      firstAction:
        "Mains sèches : voyez son alimentation et s'il y a du courant ; rechargez ou changez la batterie.",
    }),
  },
  briefs: {
    'tank-falls': TANK_FALLS.fr.brief,
    'tank-full': TANK_FULL.fr.brief,
    'strength-off': strengthOffBrief('fr'),
    'return-lower': RETURN_LOWER.fr.brief,
    'relay-chatters': (facts) => ({
      what: `LE RELAIS CLAQUE ${since(facts.since)} : il chauffe, risque d'incendie`,
      act: "Débranchez avant d'ouvrir le boîtier ; secteur : électricien",
    }),
    'float-unmoved': (facts) => ({
      what: `Flotteur de la cuve immobile depuis ${facts.days} jours`,
      act: "Pompe débranchée, levez-le à la main et voyez si l'état le suit",
    }),
    'line-bad': (facts) => ({
      what: `Ligne vers la carte mauvaise : ${share(facts)}`,
      act: 'Voyez son câble : fiches, longueur, trop près de celui de la pompe ?',
    }),
    'host-hot': (facts) => ({
      what: `Ordinateur trop chaud ${since(facts.since)} : ${facts.celsius.toFixed(0)} °C`,
      act: 'Mains sèches ; ombre et air, dépoussiérez-le',
    }),
    'host-large': (facts) => ({
      what: `Le programme occupe trop de mémoire : ${facts.megabytes.toFixed(0)} Mo`,
      act:
        facts.renewed === 'by-itself'
          ? 'Il redémarre seul entre deux arrosages ; signalez-le si cela revient'
          : 'Arrêtez-le entre deux arrosages et redémarrez-le',
    }),
    'host-battery': (facts) => ({
      what: `Batterie ordinateur ${charge(facts)} ; vide : pas d'appel, seule carte programmée arrose`,
      act: 'Mains sèches ; voyez son alimentation',
    }),
  },
});
