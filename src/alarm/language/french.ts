import type { FactsOfKind, MissSeen, Moment, Wilt } from '../facts.ts';
import { reasonText, type ReasonStyle } from '../reason.ts';
import { BUCKETS, othersBrief, withBucket, withOthers } from './buckets.ts';
import { switchOr, switchOrBrief } from './by-hand.ts';
import { FRENCH_CALLS } from './french-calls.ts';
import { frenchHost } from './french-host.ts';
import { frenchParts } from './french-parts.ts';
import { FRENCH_REASONS } from './french-reasons.ts';
import { decimalComma, shortened, spanOf, type Brief, type Language } from './language.ts';
import { WATER_ON_FLOOR } from './water-on-floor.ts';

const style: ReasonStyle = {
  code: 'fr',
  reasons: FRENCH_REASONS,
  figure: decimalComma,
  quoted: (text) => `« ${text} »`,
};

const since = (moment: Moment): string =>
  moment.kind === 'ago' ? `depuis ${spanOf(moment.minutes)}` : `depuis ${moment.time}`;

const maybeSince = (moment: Moment | null): string => (moment === null ? '' : ` ${since(moment)}`);

const wiltWords = (wilt: Wilt): string => {
  switch (wilt.kind) {
    case 'not-soon':
      return 'Aucune table ne devrait flétrir dans les 20 heures qui viennent.';
    case 'already':
      return `${withOthers('fr', wilt)} est peut-être déjà en train de flétrir.`;
    case 'ahead':
      return wilt.from === null
        ? `${wilt.bench} peut commencer à flétrir dans ${wilt.minutes} min.`
        : `${wilt.bench} peut commencer à flétrir à partir de ${wilt.from} (il reste environ ${spanOf(wilt.minutes)}).`;
  }
};

type Miss = FactsOfKind['missed-flood'];

const waterSeen = ({ trickleLitresPerMinute: trickle }: Miss): string =>
  trickle === null ? "l'eau ne revient plus" : `il ne revient que ${trickle.toFixed(0)} L/min`;

const MISS_SEEN: Readonly<Record<MissSeen, string>> = {
  'no-mains': "Le secteur est coupé et la pompe est à l'arrêt : ",
  'no-contact': "Le relais ne s'est pas fermé : ",
  'no-current': "La pompe n'a pas consommé de courant : ",
  'tank-fell': 'La cuve a baissé, mais ',
  'pump-ran': 'La pompe a tourné, mais ',
  'switched-on': 'La pompe a été mise en marche, mais ',
};

const NO_MAINS =
  "Voyez le fusible et le différentiel ; le secteur est l'affaire d'un électricien habilité. Si cela dure, portez de l'eau aux tables à la main, pompe débranchée.";
const BEFORE_HANDS = "Débranchez la pompe avant de mettre les mains dans l'eau, et rebranchez-la ensuite.";

const MISS_ACTION: Readonly<Record<MissSeen, string>> = {
  'no-mains': NO_MAINS,
  'no-contact':
    "Voyez d'abord la carte et son relais ; en attendant, la pompe peut être branchée directement à sa prise.",
  'no-current':
    "La pompe est-elle branchée ? Son interrupteur est-il coupé ? Voyez ensuite le fusible et le différentiel ; le secteur est l'affaire d'un électricien habilité.",
  'tank-fell': `${BEFORE_HANDS} Cherchez d'abord un tuyau défait entre la pompe et les tables, puis voyez le capteur de débit.`,
  'pump-ran': `${BEFORE_HANDS} Voyez d'abord le filtre, puis l'entrée de la pompe, puis si un tuyau est défait.`,
  'switched-on': `La pompe est-elle branchée ? ${BEFORE_HANDS} Voyez ensuite le filtre et l'entrée de la pompe.`,
};

const MISS_BRIEF: Readonly<Record<MissSeen, Brief>> = {
  'no-mains': { what: 'COUPURE, ', act: 'Différentiel ? Secteur : électricien ; eau à la main' },
  'no-contact': { what: 'Relais non fermé, ', act: 'Voyez carte et relais ; branchez la pompe' },
  'no-current': { what: 'Pompe sans courant, ', act: 'Branchée ? Fusible ? Secteur : électricien' },
  'tank-fell': { what: 'Cuve en baisse, ', act: 'Débranchez, puis cherchez un tuyau défait' },
  'pump-ran': { what: 'Pompe en marche, ', act: 'Débranchez ; voyez filtre, entrée, tuyaux' },
  'switched-on': { what: 'Pompe allumée, ', act: 'Branchée ? Débranchez, puis voyez le filtre' },
};

const trickleBrief = ({ trickleLitresPerMinute: trickle }: Miss): string =>
  trickle === null ? "pas d'eau" : `que ${trickle.toFixed(0)} L/min`;

const BOARD_ACTION = {
  'pump-stops':
    'Retirez la fiche USB de la carte et remettez-la ; en attendant, branchez la pompe à sa prise.',
  'pump-runs': 'Retirez la fiche USB de la carte et remettez-la ; la pompe peut tourner et vider la cuve.',
  'plain-timer': 'Retirez la fiche USB de la carte et remettez-la ; voyez si la minuterie arrose.',
} as const;

const KEEPER_ACTION = {
  'pump-stops': 'Voyez si les tables sont mouillées ; retirez la fiche USB de la carte et remettez-la.',
  'pump-runs': 'Retirez la fiche USB de la carte, remettez-la ; morte, la pompe peut tourner sans fin.',
  'plain-timer': 'Voyez tables et minuterie ; retirez la fiche USB de la carte et remettez-la.',
} as const;

const BOARD_BRIEF = {
  'pump-stops': 'Voyez câble et carte ; branchez la pompe',
  'pump-runs': 'Voyez la carte ; la pompe peut vider la cuve',
  'plain-timer': 'Voyez câble et carte ; la minuterie arrose ?',
} as const;

const KEEPER_BRIEF = {
  'pump-stops': "Voyez s'il y a de l'eau",
  'pump-runs': 'Voyez carte et pompe',
  'plain-timer': "Voyez s'il y a de l'eau",
} as const;

const UNNOTICED = 'Les arrosages continuent, mais un arrosage manqué peut passer inaperçu.';

const host = frenchHost(since, style);
const bucket = BUCKETS.fr;

export const FRENCH: Language = {
  ...style,
  span: spanOf,
  since,
  wilt: wiltWords,
  calls: FRENCH_CALLS,
  bucket,
  cards: {
    ...host.cards,
    ...frenchParts(since).cards,
    'missed-flood': (facts) => ({
      cause: `${MISS_SEEN[facts.seen]}${waterSeen(facts)} ${since(facts.since)}.`,
      consequence: wiltWords(facts.wilt),
      firstAction: `${MISS_ACTION[facts.seen]}${withBucket(bucket, facts.bucket)}`,
    }),
    'mains-lost': ({ against, ...facts }) => ({
      cause:
        against === null
          ? `Le secteur est coupé ${since(facts.since)} : la pompe est à l'arrêt.`
          : `Le contact du secteur indique une coupure ${since(facts.since)}, mais ${reasonText(against, style)} : l'un des deux est faux.`,
      consequence: wiltWords(facts.wilt),
      firstAction:
        against === null
          ? `${NO_MAINS}${withBucket(bucket, facts.bucket)}`
          : 'Voyez si la pompe tourne, puis le contact.',
    }),
    'weak-flow': ({ why }) => ({
      cause: `Arrosage faible : ${reasonText(why, style)}.`,
      consequence: null,
      firstAction: `${BEFORE_HANDS} Nettoyez le filtre, puis cherchez des entrées bouchées.`,
    }),
    'pump-runs-on': (facts) => ({
      cause: `La pompe a été arrêtée, mais ${reasonText(facts.why, style)} ${since(facts.since)}.`,
      consequence: 'La cuve peut se vider ou déborder.',
      firstAction: switchOr(facts.why, 'fr', 'Débranchez la pompe, puis voyez le relais.'),
    }),
    'tank-low': (facts) => ({
      cause: `La cuve est basse${maybeSince(facts.since)} ; ${facts.float === 'low' ? 'seuls des arrosages minimes sont donnés' : "le flotteur est remonté, mais aucun arrosage entier n'est encore passé"}.`,
      consequence: wiltWords(facts.wilt),
      firstAction: `Regardez dans la cuve. ${BEFORE_HANDS} Remplissez-la, ou libérez le flotteur à la main s'il est coincé.`,
    }),
    'float-suspect': (facts) => ({
      cause: `Le flotteur de la cuve indique bas${maybeSince(facts.since)}, mais l'eau revient ; des arrosages raccourcis continuent.`,
      consequence: wiltWords(facts.wilt),
      firstAction: `Regardez dans la cuve. ${BEFORE_HANDS} Essayez le flotteur à la main.`,
    }),
    'water-on-floor': ({ where }) => WATER_ON_FLOOR.fr.card(reasonText(where, style)),
    'hold-is-long': (facts) => ({
      cause: `Pas d'arrosage ${since(facts.since)} : ${reasonText(facts.why, style)}.`,
      consequence: wiltWords(facts.wilt),
      firstAction: "Mettez fin à l'arrêt quand les mains sont hors de l'eau.",
    }),
    'drying-out': (facts) =>
      facts.keeper === 'keeps'
        ? {
            cause: `Personne ne voit d'arrosage ${since(facts.since)} : ${reasonText(facts.why, style)}, mais elle devrait arroser selon son propre programme.`,
            consequence: `Sinon : ${wiltWords(facts.wilt)}`,
            firstAction: `Allez voir si les tables sont mouillées ; sinon, portez-y de l'eau à la main, pompe débranchée.${withBucket(bucket, facts.bucket)}`,
          }
        : {
            cause: `Pas d'arrosage ${since(facts.since)} : ${reasonText(facts.why, style)}.`,
            consequence: wiltWords(facts.wilt),
            firstAction: `${BEFORE_HANDS} Portez de l'eau aux tables à la main, puis réparez la cause.${withBucket(bucket, facts.bucket)}`,
          },
    'flow-sensor-silent': (facts) => ({
      cause: `Le capteur de débit du retour n'est plus fiable ${since(facts.since)} : ${reasonText(facts.why, style)}.`,
      consequence: UNNOTICED,
      firstAction: 'Voyez le capteur et son câble.',
    }),
    'flow-sensor-stuck': (facts) => ({
      cause: `Le capteur de débit du retour montre de l'eau ${since(facts.since)}, pompe à l'arrêt.`,
      consequence: UNNOTICED,
      firstAction: `Voyez, sans toucher, si l'eau coule vraiment. ${BEFORE_HANDS} Si rien ne coule, libérez ou changez le capteur.`,
    }),
    'clock-stepped': () => ({
      cause:
        "L'horloge de l'ordinateur a sauté, ou rien ne l'a mise à l'heure depuis qu'il a démarré : personne ne sait si elle est juste.",
      consequence: "D'ici là, les tables reçoivent les arrosages des heures les plus chaudes du plan.",
      firstAction:
        "Corrigez la date et l'heure de l'ordinateur, puis confirmez-les sur place : rillkeeper clock FARM --right. Un « ok » par message ne fait que taire cette alarme.",
    }),
    'no-good-temperature': (facts) => ({
      cause: `Pas de température de l'air fiable ${since(facts.since)} : ${reasonText(facts.why, style)}.`,
      consequence: null,
      firstAction:
        "En attendant, le plan arrose plutôt trop que trop peu. Voyez le thermomètre de l'air et son câble.",
    }),
    'board-silent': (facts) => {
      const silent = `La carte ne répond plus ${since(facts.since)} (${shortened(reasonText(facts.why, style))})`;
      return facts.keeper === 'keeps'
        ? {
            cause: `${silent} ; elle devrait arroser selon son propre programme, sans être vue.`,
            consequence: `Sinon : ${wiltWords(facts.wilt)}`,
            firstAction: KEEPER_ACTION[facts.deadBoard],
          }
        : {
            cause: `${silent} ; aucun arrosage ne peut être donné.`,
            consequence: wiltWords(facts.wilt),
            firstAction: BOARD_ACTION[facts.deadBoard],
          };
    },
  },
  briefs: {
    ...host.briefs,
    ...frenchParts(since).briefs,
    'missed-flood': (facts) => ({
      what: `${MISS_BRIEF[facts.seen].what}${trickleBrief(facts)} ${since(facts.since)}`,
      act: MISS_BRIEF[facts.seen].act,
    }),
    'mains-lost': (facts) =>
      facts.against === null
        ? {
            what: `SECTEUR COUPÉ ${since(facts.since)}`,
            act: 'Différentiel ? Secteur : électricien ; eau à la main',
          }
        : { what: `Contact secteur douteux ${since(facts.since)}`, act: 'Voyez si la pompe tourne' },
    'weak-flow': ({ why }) => ({
      what: `Arrosage faible : ${reasonText(why, style)}`,
      act: 'Débranchez, nettoyez le filtre, voyez les entrées',
    }),
    'pump-runs-on': (facts) => ({
      what: `LA POMPE NE S'ARRÊTE PAS ${since(facts.since)}, la cuve peut se vider ou déborder`,
      act: switchOrBrief(facts.why, 'fr', 'Débranchez-la, puis voyez le relais'),
    }),
    'tank-low': (facts) => ({
      what: `CUVE BASSE${maybeSince(facts.since)}, ${facts.float === 'low' ? 'arrosages minimes' : 'flotteur remonté'}`,
      act: 'Débranchez, remplissez, libérez le flotteur',
    }),
    'float-suspect': (facts) => ({
      what: `Flotteur bas${maybeSince(facts.since)} mais l'eau revient`,
      act: 'Débranchez, puis essayez le flotteur',
    }),
    'water-on-floor': ({ where }) => WATER_ON_FLOOR.fr.brief(reasonText(where, style)),
    'hold-is-long': (facts) => ({
      what: `Pas d'arrosage ${since(facts.since)} : ${reasonText(facts.why, style)}`,
      act: 'Sortez les mains, puis reprenez',
    }),
    'drying-out': (facts) =>
      facts.keeper === 'keeps'
        ? {
            what: `Arrosage non vu ${since(facts.since)}, la carte devrait arroser`,
            act: "Voyez s'il y a de l'eau",
          }
        : {
            what: `PAS D'EAU ${since(facts.since)} : ${reasonText(facts.why, style)}`,
            act: 'Arrosez à la main',
          },
    'flow-sensor-silent': (facts) => ({
      what: `Capteur du retour peu fiable ${since(facts.since)}, un arrosage manqué peut passer inaperçu`,
      act: 'Voyez le capteur et son câble',
    }),
    'flow-sensor-stuck': (facts) => ({
      what: `Le capteur du retour montre de l'eau ${since(facts.since)}, pompe arrêtée`,
      act: "L'eau coule ? Sinon débranchez et libérez le capteur",
    }),
    'clock-stepped': () => ({
      what: "L'heure de l'ordinateur est douteuse, arrosages des heures les plus chaudes",
      act: 'Corrigez date et heure, puis tapez-y : rillkeeper clock',
    }),
    'no-good-temperature': (facts) => ({
      what: `Pas de température de l'air ${since(facts.since)}, le plan arrose plutôt trop`,
      act: "Voyez le thermomètre de l'air et son câble",
    }),
    'board-silent': (facts) =>
      facts.keeper === 'keeps'
        ? {
            what: `Carte muette ${since(facts.since)}, devrait arroser seule`,
            act: KEEPER_BRIEF[facts.deadBoard],
          }
        : { what: `CARTE MUETTE ${since(facts.since)}, pas d'arrosage`, act: BOARD_BRIEF[facts.deadBoard] },
  },
  briefWilt: (wilt, condition) => {
    const before = condition === 'surely' ? '' : 'Sinon ';
    switch (wilt.kind) {
      case 'not-soon':
        return { before: '', bench: '', after: 'Rien ne flétrit dans les 20 h' };
      case 'already':
        return { before, bench: wilt.bench, after: `${othersBrief(wilt)} flétrit peut-être déjà` };
      case 'ahead':
        return {
          before,
          bench: wilt.bench,
          after: ` peut flétrir ${wilt.from === null ? `dans ${wilt.minutes} min` : `dès ${wilt.from}`}`,
        };
    }
  },
};
