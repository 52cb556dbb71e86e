import type { FactsOfKind, MissSeen, Moment, Wilt } from '../facts.ts';
import { reasonText, type ReasonStyle } from '../reason.ts';
import { BUCKETS, othersBrief, withBucket, withOthers } from './buckets.ts';
import { switchOr, switchOrBrief } from './by-hand.ts';
import { SPANISH_CALLS } from './spanish-calls.ts';
import { spanishHost } from './spanish-host.ts';
import { decimalComma, shortened, spanOf, type Brief, type Language } from './language.ts';
import { spanishParts } from './spanish-parts.ts';
import { SPANISH_REASONS } from './spanish-reasons.ts';
import { WATER_ON_FLOOR } from './water-on-floor.ts';

const style: ReasonStyle = {
  code: 'es',
  reasons: SPANISH_REASONS,
  figure: decimalComma,
  quoted: (text) => `"${text}"`,
};

/** One o'clock is singular: "la 01:20", "las 14:20". */
const clock = (time: string): string => `${time.startsWith('01:') ? 'la' : 'las'} ${time}`;

const since = (moment: Moment): string =>
  moment.kind === 'ago' ? `desde hace ${spanOf(moment.minutes)}` : `desde ${clock(moment.time)}`;

const maybeSince = (moment: Moment | null): string => (moment === null ? '' : ` ${since(moment)}`);

const wiltWords = (wilt: Wilt): string => {
  switch (wilt.kind) {
    case 'not-soon':
      return 'Ninguna mesa debería marchitarse en las próximas 20 horas.';
    case 'already':
      return `${withOthers('es', wilt)} puede estar ya marchitándose.`;
    case 'ahead':
      return wilt.from === null
        ? `${wilt.bench} puede empezar a marchitarse dentro de ${wilt.minutes} min.`
        : `${wilt.bench} puede empezar a marchitarse a partir de ${clock(wilt.from)} (quedan unos ${spanOf(wilt.minutes)}).`;
  }
};

type Miss = FactsOfKind['missed-flood'];

const waterSeen = ({ trickleLitresPerMinute: trickle }: Miss): string =>
  trickle === null ? 'no vuelve agua' : `solo vuelven ${trickle.toFixed(0)} L/min`;

const MISS_SEEN: Readonly<Record<MissSeen, string>> = {
  'no-mains': 'Falta la corriente de la red y la bomba está parada: ',
  'no-contact': 'El relé no cerró: ',
  'no-current': 'La bomba no consumió corriente: ',
  'tank-fell': 'El depósito bajó, pero ',
  'pump-ran': 'La bomba funcionó, pero ',
  'switched-on': 'Se encendió la bomba, pero ',
};

const NO_MAINS =
  'Mire el fusible y el diferencial; la red eléctrica es cosa de un electricista autorizado. Si dura, lleve agua a las mesas a mano, con la bomba desenchufada.';
const BEFORE_HANDS = 'Desenchufe la bomba antes de meter las manos, y vuelva a enchufarla al final.';

const MISS_ACTION: Readonly<Record<MissSeen, string>> = {
  'no-mains': NO_MAINS,
  'no-contact': 'Mire primero la placa y su relé; mientras tanto puede enchufar la bomba directamente.',
  'no-current':
    '¿Está enchufada la bomba? ¿Está apagado su interruptor? Luego mire el fusible y el diferencial; la red eléctrica es cosa de un electricista autorizado.',
  'tank-fell': `${BEFORE_HANDS} Busque primero un tubo suelto entre la bomba y las mesas, luego mire el sensor de caudal.`,
  'pump-ran': `${BEFORE_HANDS} Mire primero el filtro, luego la entrada de la bomba, luego si hay un tubo suelto.`,
  'switched-on': `¿Está enchufada la bomba? ${BEFORE_HANDS} Luego mire el filtro y la entrada de la bomba.`,
};

const MISS_BRIEF: Readonly<Record<MissSeen, Brief>> = {
  'no-mains': { what: 'SIN LUZ, ', act: 'Vea diferencial; red: electricista; agua a mano' },
  'no-contact': { what: 'Relé no cierra, ', act: 'Vea placa y relé; enchufe la bomba' },
  'no-current': { what: 'Bomba no consume, ', act: '¿Enchufada? ¿Fusible? Red: electricista' },
  'tank-fell': { what: 'Bajó el depósito, ', act: 'Desenchufe y busque un tubo suelto' },
  'pump-ran': { what: 'Bomba en marcha, ', act: 'Desenchufe; vea filtro, entrada, tubos' },
  'switched-on': { what: 'Bomba encendida, ', act: '¿Enchufada? Desenchufe y vea el filtro' },
};

const trickleBrief = ({ trickleLitresPerMinute: trickle }: Miss): string =>
  trickle === null ? 'sin agua' : `solo ${trickle.toFixed(0)} L/min`;

const BOARD_ACTION = {
  'pump-stops':
    'Saque el USB de la placa y vuelva a ponerlo; mientras, puede enchufar la bomba directamente.',
  'pump-runs': 'Saque el USB de la placa y vuelva a ponerlo; la bomba puede no parar y vaciar el depósito.',
  'plain-timer': 'Saque el USB de la placa y vuelva a ponerlo; mire si el temporizador riega.',
} as const;

const KEEPER_ACTION = {
  'pump-stops': 'Vea si las mesas están mojadas; saque el USB de la placa y vuelva a ponerlo.',
  'pump-runs': 'Saque el USB de la placa y vuelva a ponerlo; si está muerta, la bomba puede no parar.',
  'plain-timer': 'Vea mesas y temporizador; saque el USB de la placa y vuelva a ponerlo.',
} as const;

const BOARD_BRIEF = {
  'pump-stops': 'Vea cable y placa; enchufe la bomba',
  'pump-runs': 'Vea la placa; la bomba puede no parar',
  'plain-timer': 'Vea la placa; ¿riega el temporizador?',
} as const;

const KEEPER_BRIEF = {
  'pump-stops': 'Vea si hay agua',
  'pump-runs': 'Vea placa y bomba',
  'plain-timer': 'Vea si hay agua',
} as const;

const UNNOTICED = 'Los riegos siguen, pero puede fallar uno sin que se note.';

const host = spanishHost(since, style);
const bucket = BUCKETS.es;

export const SPANISH: Language = {
  ...style,
  span: spanOf,
  since,
  wilt: wiltWords,
  calls: SPANISH_CALLS,
  bucket,
  cards: {
    ...host.cards,
    ...spanishParts(since).cards,
    'missed-flood': (facts) => ({
      cause: `${MISS_SEEN[facts.seen]}${waterSeen(facts)} ${since(facts.since)}.`,
      consequence: wiltWords(facts.wilt),
      firstAction: `${MISS_ACTION[facts.seen]}${withBucket(bucket, facts.bucket)}`,
    }),
    'mains-lost': ({ against, ...facts }) => ({
      cause:
        against === null
          ? `Falta la corriente de la red ${since(facts.since)}: la bomba está parada.`
          : `El contacto de la red dice que falta corriente ${since(facts.since)}, pero ${reasonText(against, style)}: uno de los dos falla.`,
      consequence: wiltWords(facts.wilt),
      firstAction:
        against === null
          ? `${NO_MAINS}${withBucket(bucket, facts.bucket)}`
          : 'Vea si la bomba funciona, luego el contacto.',
    }),
    'weak-flow': ({ why }) => ({
      cause: `Riego flojo: ${reasonText(why, style)}.`,
      consequence: null,
      firstAction: `${BEFORE_HANDS} Limpie el filtro, luego busque entradas atascadas.`,
    }),
    'pump-runs-on': (facts) => ({
      cause: `La bomba se apagó, pero ${reasonText(facts.why, style)} ${since(facts.since)}.`,
      consequence: 'El depósito puede vaciarse o rebosar.',
      firstAction: switchOr(facts.why, 'es', 'Desenchufe la bomba, luego mire el relé.'),
    }),
    'tank-low': (facts) => ({
      cause: `El depósito está bajo${maybeSince(facts.since)}; ${facts.float === 'low' ? 'solo se dan riegos mínimos' : 'la boya ya no marca bajo, pero aún no ha pasado un riego entero'}.`,
      consequence: wiltWords(facts.wilt),
      firstAction: `Mire dentro del depósito. ${BEFORE_HANDS} Llénelo, o suelte la boya a mano si está trabada.`,
    }),
    'float-suspect': (facts) => ({
      cause: `La boya del depósito marca bajo${maybeSince(facts.since)}, pero vuelve agua; siguen riegos acortados.`,
      consequence: wiltWords(facts.wilt),
      firstAction: `Mire dentro del depósito. ${BEFORE_HANDS} Pruebe la boya a mano.`,
    }),
    'water-on-floor': ({ where }) => WATER_ON_FLOOR.es.card(reasonText(where, style)),
    'hold-is-long': (facts) => ({
      cause: `Sin riego ${since(facts.since)}: ${reasonText(facts.why, style)}.`,
      consequence: wiltWords(facts.wilt),
      firstAction: 'Termine la parada cuando las manos estén fuera del agua.',
    }),
    'drying-out': (facts) =>
      facts.keeper === 'keeps'
        ? {
            cause: `Nadie ve un riego ${since(facts.since)}: ${reasonText(facts.why, style)}, aunque debería regar por su propia tabla.`,
            consequence: `Si no riega: ${wiltWords(facts.wilt)}`,
            firstAction: `Vaya a ver si las mesas están mojadas; si no, lléveles agua a mano, con la bomba desenchufada.${withBucket(bucket, facts.bucket)}`,
          }
        : {
            cause: `Sin riego ${since(facts.since)}: ${reasonText(facts.why, style)}.`,
            consequence: wiltWords(facts.wilt),
            firstAction: `${BEFORE_HANDS} Lleve agua a las mesas a mano, luego repare la causa.${withBucket(bucket, facts.bucket)}`,
          },
    'flow-sensor-silent': (facts) => ({
      cause: `El sensor de caudal del retorno no merece confianza ${since(facts.since)}: ${reasonText(facts.why, style)}.`,
      consequence: UNNOTICED,
      firstAction: 'Mire el sensor y su cable.',
    }),
    'flow-sensor-stuck': (facts) => ({
      cause: `El sensor de caudal del retorno muestra agua ${since(facts.since)}, con la bomba parada.`,
      consequence: UNNOTICED,
      firstAction: `Vea, sin tocar, si de verdad corre agua. ${BEFORE_HANDS} Si no corre, suelte o cambie el sensor.`,
    }),
    'clock-stepped': () => ({
      cause:
        'El reloj del ordenador ha dado un salto, o nada lo ha puesto en hora desde que arrancó: nadie sabe si va bien.',
      consequence:
        'Hasta que alguien lo sepa, las mesas reciben los riegos de las horas más calurosas del plan.',
      firstAction:
        'Corrija la fecha y la hora del ordenador, luego confírmelas en él: rillkeeper clock FARM --right. Un "ok" por mensaje solo calla esta alarma.',
    }),
    'no-good-temperature': (facts) => ({
      cause: `Sin temperatura del aire fiable ${since(facts.since)}: ${reasonText(facts.why, style)}.`,
      consequence: null,
      firstAction:
        'Mientras tanto el plan riega de más, no de menos. Mire el termómetro del aire y su cable.',
    }),
    'board-silent': (facts) => {
      const silent = `La placa no responde ${since(facts.since)} (${shortened(reasonText(facts.why, style))})`;
      return facts.keeper === 'keeps'
        ? {
            cause: `${silent}; debería regar por su propia tabla, sin que nadie lo vea.`,
            consequence: `Si no riega: ${wiltWords(facts.wilt)}`,
            firstAction: KEEPER_ACTION[facts.deadBoard],
          }
        : {
            cause: `${silent}; no se puede dar ningún riego.`,
            consequence: wiltWords(facts.wilt),
            firstAction: BOARD_ACTION[facts.deadBoard],
          };
    },
  },
  briefs: {
    ...host.briefs,
    ...spanishParts(since).briefs,
    'missed-flood': (facts) => ({
      what: `${MISS_BRIEF[facts.seen].what}${trickleBrief(facts)} ${since(facts.since)}`,
      act: MISS_BRIEF[facts.seen].act,
    }),
    'mains-lost': (facts) =>
      facts.against === null
        ? {
            what: `SIN LUZ ${since(facts.since)}`,
            act: 'Vea diferencial; red: electricista; agua a mano',
          }
        : { what: `Contacto de red dice sin luz ${since(facts.since)}, dudoso`, act: '¿Funciona la bomba?' },
    'weak-flow': ({ why }) => ({
      what: `Riego flojo: ${reasonText(why, style)}`,
      act: 'Desenchufe, limpie el filtro, vea las entradas',
    }),
    'pump-runs-on': (facts) => ({
      what: `LA BOMBA NO PARA ${since(facts.since)}, el depósito puede vaciarse o rebosar`,
      act: switchOrBrief(facts.why, 'es', 'Desenchúfela, luego mire el relé'),
    }),
    'tank-low': (facts) => ({
      what: `DEPÓSITO BAJO${maybeSince(facts.since)}, ${facts.float === 'low' ? 'riegos mínimos' : 'boya ya arriba'}`,
      act: 'Desenchufe, llénelo o suelte la boya',
    }),
    'float-suspect': (facts) => ({
      what: `Boya marca bajo${maybeSince(facts.since)} pero vuelve agua`,
      act: 'Desenchufe, luego pruebe la boya',
    }),
    'water-on-floor': ({ where }) => WATER_ON_FLOOR.es.brief(reasonText(where, style)),
    'hold-is-long': (facts) => ({
      what: `Sin riego ${since(facts.since)}: ${reasonText(facts.why, style)}`,
      act: 'Manos fuera; luego acabe la parada',
    }),
    'drying-out': (facts) =>
      facts.keeper === 'keeps'
        ? { what: `Riego no visto ${since(facts.since)}, debería regar la placa`, act: 'Vea si hay agua' }
        : { what: `SIN RIEGO ${since(facts.since)}: ${reasonText(facts.why, style)}`, act: 'Riegue a mano' },
    'flow-sensor-silent': (facts) => ({
      what: `Sensor del retorno poco fiable ${since(facts.since)}, un riego fallido puede no verse`,
      act: 'Mire el sensor y el cable',
    }),
    'flow-sensor-stuck': (facts) => ({
      what: `Sensor del retorno muestra agua ${since(facts.since)} con la bomba parada`,
      act: '¿Corre agua? Si no, desenchufe y suelte el sensor',
    }),
    'clock-stepped': () => ({
      what: 'El reloj del ordenador está en duda, riegos de las horas más calurosas',
      act: 'Corríjalo, luego escriba en él: rillkeeper clock',
    }),
    'no-good-temperature': (facts) => ({
      what: `Sin temperatura del aire ${since(facts.since)}, el plan riega de más`,
      act: 'Mire el termómetro del aire y su cable',
    }),
    'board-silent': (facts) =>
      facts.keeper === 'keeps'
        ? {
            what: `Placa no responde ${since(facts.since)}, debería regar sola`,
            act: KEEPER_BRIEF[facts.deadBoard],
          }
        : { what: `PLACA NO RESPONDE ${since(facts.since)}, sin riegos`, act: BOARD_BRIEF[facts.deadBoard] },
  },
  briefWilt: (wilt, condition) => {
    const before = condition === 'surely' ? '' : 'Si no, ';
    switch (wilt.kind) {
      case 'not-soon':
        return { before: '', bench: '', after: 'Nada se marchita en 20 h' };
      case 'already':
        return { before, bench: wilt.bench, after: `${othersBrief(wilt)} puede estar mustia ya` };
      case 'ahead':
        return {
          before,
          bench: wilt.bench,
          after: ` puede mustiarse ${wilt.from === null ? `en ${wilt.minutes} min` : `a ${clock(wilt.from)}`}`,
        };
    }
  },
};
