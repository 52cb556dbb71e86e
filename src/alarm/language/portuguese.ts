import type { FactsOfKind, MissSeen, Moment, Wilt } from '../facts.ts';
import { reasonText, type ReasonStyle } from '../reason.ts';
import { BUCKETS, othersBrief, withBucket, withOthers } from './buckets.ts';
import { switchOr, switchOrBrief } from './by-hand.ts';
import { PORTUGUESE_CALLS } from './portuguese-calls.ts';
import { portugueseHost } from './portuguese-host.ts';
import { decimalComma, shortened, spanOf, type Brief, type Language } from './language.ts';
import { portugueseParts } from './portuguese-parts.ts';
import { PORTUGUESE_REASONS } from './portuguese-reasons.ts';
import { WATER_ON_FLOOR } from './water-on-floor.ts';

/** European Portuguese, spelling of 1990. */
const style: ReasonStyle = {
  code: 'pt',
  reasons: PORTUGUESE_REASONS,
  figure: decimalComma,
  quoted: (text) => `"${text}"`,
};

/** One o'clock is singular: "a 01:20", "as 14:20". */
const clock = (singular: string, plural: string, time: string): string =>
  `${time.startsWith('01:') ? singular : plural} ${time}`;

const since = (moment: Moment): string =>
  moment.kind === 'ago' ? `há ${spanOf(moment.minutes)}` : `desde ${clock('a', 'as', moment.time)}`;

const maybeSince = (moment: Moment | null): string => (moment === null ? '' : ` ${since(moment)}`);

const wiltWords = (wilt: Wilt): string => {
  switch (wilt.kind) {
    case 'not-soon':
      return 'Nenhuma bancada deve murchar nas próximas 20 horas.';
    case 'already':
      return `${withOthers('pt', wilt)} pode já estar a murchar.`;
    case 'ahead':
      return wilt.from === null
        ? `${wilt.bench} pode começar a murchar dentro de ${wilt.minutes} min.`
        : `${wilt.bench} pode começar a murchar a partir ${clock('da', 'das', wilt.from)} (faltam cerca de ${spanOf(wilt.minutes)}).`;
  }
};

type Miss = FactsOfKind['missed-flood'];

const waterSeen = ({ trickleLitresPerMinute: trickle }: Miss): string =>
  trickle === null ? 'não volta água' : `só voltam ${trickle.toFixed(0)} L/min`;

const MISS_SEEN: Readonly<Record<MissSeen, string>> = {
  'no-mains': 'Falta a corrente da rede e a bomba está parada: ',
  'no-contact': 'O relé não fechou: ',
  'no-current': 'A bomba não puxou corrente: ',
  'tank-fell': 'O depósito baixou, mas ',
  'pump-ran': 'A bomba trabalhou, mas ',
  'switched-on': 'A bomba foi ligada, mas ',
};

const NO_MAINS =
  'Veja o fusível e o diferencial; na rede elétrica só mexe um eletricista habilitado. Se demorar, leve água às bancadas à mão, com a bomba fora da tomada.';
const BEFORE_HANDS = 'Tire a bomba da tomada antes de meter as mãos, e volte a ligá-la no fim.';

const MISS_ACTION: Readonly<Record<MissSeen, string>> = {
  'no-mains': NO_MAINS,
  'no-contact': 'Veja primeiro a placa e o relé; entretanto pode ligar a bomba pela sua própria ficha.',
  'no-current':
    'A bomba está ligada à tomada? O interruptor está desligado? Depois veja o fusível e o diferencial; na rede elétrica só mexe um eletricista habilitado.',
  'tank-fell': `${BEFORE_HANDS} Procure primeiro um tubo solto entre a bomba e as bancadas, depois veja o sensor de caudal.`,
  'pump-ran': `${BEFORE_HANDS} Veja primeiro o filtro, depois a entrada da bomba, depois se há um tubo solto.`,
  'switched-on': `A bomba está ligada à tomada? ${BEFORE_HANDS} Depois veja o filtro e a entrada da bomba.`,
};

const MISS_BRIEF: Readonly<Record<MissSeen, Brief>> = {
  'no-mains': { what: 'SEM LUZ, ', act: 'Veja o diferencial; rede: só eletricista; regue à mão' },
  'no-contact': { what: 'Relé não fechou, ', act: 'Veja placa e relé; ligue a bomba pela ficha' },
  'no-current': { what: 'Bomba sem corrente, ', act: 'Está na tomada? Fusível? Rede: só eletricista' },
  'tank-fell': { what: 'Depósito baixou, ', act: 'Tire a ficha e procure um tubo solto' },
  'pump-ran': { what: 'Bomba trabalha, ', act: 'Tire a ficha; veja filtro, entrada, tubos' },
  'switched-on': { what: 'Bomba ligada, ', act: 'Está na tomada? Tire a ficha; veja o filtro' },
};

const trickleBrief = ({ trickleLitresPerMinute: trickle }: Miss): string =>
  trickle === null ? 'sem água' : `só ${trickle.toFixed(0)} L/min`;

const BOARD_ACTION = {
  'pump-stops': 'Tire a ficha USB da placa e volte a pô-la; entretanto pode ligar a bomba pela sua ficha.',
  'pump-runs': 'Tire a ficha USB da placa e volte a pô-la; a bomba pode não parar e esvaziar o depósito.',
  'plain-timer': 'Tire a ficha USB da placa e volte a pô-la; veja se o temporizador está a regar.',
} as const;

const KEEPER_ACTION = {
  'pump-stops': 'Veja se as bancadas estão molhadas; tire a ficha USB da placa e volte a pô-la.',
  'pump-runs': 'Tire a ficha USB da placa e volte a pô-la; se estiver morta, a bomba pode não parar.',
  'plain-timer': 'Veja bancadas e temporizador; tire a ficha USB da placa e volte a pô-la.',
} as const;

const BOARD_BRIEF = {
  'pump-stops': 'Veja cabo e placa; ligue a bomba pela ficha',
  'pump-runs': 'Veja a placa; a bomba pode esvaziar o depósito',
  'plain-timer': 'Veja cabo e placa; o temporizador rega?',
} as const;

const KEEPER_BRIEF = {
  'pump-stops': 'Veja se há água, depois o cabo',
  'pump-runs': 'Veja a placa; bomba sem parar?',
  'plain-timer': 'Veja água e temporizador',
} as const;

const UNNOTICED = 'As regas continuam, mas pode não se dar por uma que falhe.';
const host = portugueseHost(since, style);
const bucket = BUCKETS.pt;

export const PORTUGUESE: Language = {
  ...style,
  span: spanOf,
  since,
  wilt: wiltWords,
  calls: PORTUGUESE_CALLS,
  bucket,
  cards: {
    ...host.cards,
    ...portugueseParts(since).cards,
    'missed-flood': (facts) => ({
      cause: `${MISS_SEEN[facts.seen]}${waterSeen(facts)} ${since(facts.since)}.`,
      consequence: wiltWords(facts.wilt),
      firstAction: `${MISS_ACTION[facts.seen]}${withBucket(bucket, facts.bucket)}`,
    }),
    'mains-lost': ({ against, ...facts }) => ({
      cause:
        against === null
          ? `Falta a corrente da rede ${since(facts.since)}: a bomba está parada.`
          : `O contacto da rede diz que falta corrente ${since(facts.since)}, mas ${reasonText(against, style)}: um dos dois está errado.`,
      consequence: wiltWords(facts.wilt),
      firstAction:
        against === null
          ? `${NO_MAINS}${withBucket(bucket, facts.bucket)}`
          : 'Veja se a bomba trabalha, depois o contacto.',
    }),
    'weak-flow': ({ why }) => ({
      cause: `Rega fraca: ${reasonText(why, style)}.`,
      consequence: null,
      firstAction: `${BEFORE_HANDS} Limpe o filtro, depois procure entradas entupidas.`,
    }),
    'pump-runs-on': (facts) => ({
      cause: `A bomba foi desligada, mas ${reasonText(facts.why, style)} ${since(facts.since)}.`,
      consequence: 'O depósito pode ficar vazio ou transbordar.',
      firstAction: switchOr(facts.why, 'pt', 'Tire a bomba da tomada, depois veja o relé.'),
    }),
    'tank-low': (facts) => ({
      cause: `O depósito está baixo${maybeSince(facts.since)}; ${facts.float === 'low' ? 'só são dadas regas mínimas' : 'a boia já não marca baixo, mas ainda não passou uma rega inteira'}.`,
      consequence: wiltWords(facts.wilt),
      firstAction: `Olhe para dentro do depósito. ${BEFORE_HANDS} Encha-o, ou solte a boia à mão se estiver presa.`,
    }),
    'float-suspect': (facts) => ({
      cause: `A boia do depósito marca baixo${maybeSince(facts.since)}, mas volta água; continuam regas encurtadas.`,
      consequence: wiltWords(facts.wilt),
      firstAction: `Olhe para dentro do depósito. ${BEFORE_HANDS} Experimente a boia à mão.`,
    }),
    'water-on-floor': ({ where }) => WATER_ON_FLOOR.pt.card(reasonText(where, style)),
    'hold-is-long': (facts) => ({
      cause: `Sem rega ${since(facts.since)}: ${reasonText(facts.why, style)}.`,
      consequence: wiltWords(facts.wilt),
      firstAction: 'Acabe a paragem quando as mãos estiverem fora da água.',
    }),
    'drying-out': (facts) =>
      facts.keeper === 'keeps'
        ? {
            cause: `Ninguém vê uma rega ${since(facts.since)}: ${reasonText(facts.why, style)}, mas devia regar pela sua própria tabela.`,
            consequence: `Se não regar: ${wiltWords(facts.wilt)}`,
            firstAction: `Vá ver se as bancadas estão molhadas; se não, leve-lhes água à mão, com a bomba fora da tomada.${withBucket(bucket, facts.bucket)}`,
          }
        : {
            cause: `Sem rega ${since(facts.since)}: ${reasonText(facts.why, style)}.`,
            consequence: wiltWords(facts.wilt),
            firstAction: `${BEFORE_HANDS} Leve água às bancadas à mão, depois repare a causa.${withBucket(bucket, facts.bucket)}`,
          },
    'flow-sensor-silent': (facts) => ({
      cause: `O sensor de caudal do retorno não merece confiança ${since(facts.since)}: ${reasonText(facts.why, style)}.`,
      consequence: UNNOTICED,
      firstAction: 'Veja o sensor e o seu cabo.',
    }),
    'flow-sensor-stuck': (facts) => ({
      cause: `O sensor de caudal do retorno mostra água ${since(facts.since)}, com a bomba parada.`,
      consequence: UNNOTICED,
      firstAction: `Veja, sem mexer, se corre mesmo água. ${BEFORE_HANDS} Se não corre, solte ou troque o sensor.`,
    }),
    'clock-stepped': () => ({
      cause:
        'O relógio do computador deu um salto, ou nada o acertou desde que o computador arrancou: ninguém sabe se está certo.',
      consequence: 'Até alguém saber, as bancadas levam as regas das horas mais quentes do plano.',
      firstAction: 'Acerte-o e confirme no computador: rillkeeper clock FARM --right. Um "ok" só cala.',
    }),
    'no-good-temperature': (facts) => ({
      cause: `Sem temperatura do ar de confiança ${since(facts.since)}: ${reasonText(facts.why, style)}.`,
      consequence: null,
      firstAction: 'Entretanto o plano rega a mais, não a menos. Veja o termómetro do ar e o seu cabo.',
    }),
    'board-silent': (facts) => {
      const silent = `A placa não responde ${since(facts.since)} (${shortened(reasonText(facts.why, style))})`;
      return facts.keeper === 'keeps'
        ? {
            cause: `${silent}; deve regar pela sua própria tabela, sem ninguém ver.`,
            consequence: `Se não regar: ${wiltWords(facts.wilt)}`,
            firstAction: KEEPER_ACTION[facts.deadBoard],
          }
        : {
            cause: `${silent}; não se pode dar nenhuma rega.`,
            consequence: wiltWords(facts.wilt),
            firstAction: BOARD_ACTION[facts.deadBoard],
          };
    },
  },
  briefs: {
    ...host.briefs,
    ...portugueseParts(since).briefs,
    'missed-flood': (facts) => ({
      what: `${MISS_BRIEF[facts.seen].what}${trickleBrief(facts)} ${since(facts.since)}`,
      act: MISS_BRIEF[facts.seen].act,
    }),
    'mains-lost': (facts) =>
      facts.against === null
        ? {
            what: `SEM LUZ ${since(facts.since)}`,
            act: 'Veja o diferencial; rede: só eletricista; regue à mão',
          }
        : {
            what: `Contacto da rede diz sem luz ${since(facts.since)}, duvidoso`,
            act: 'Veja se a bomba trabalha',
          },
    'weak-flow': ({ why }) => ({
      what: `Rega fraca: ${reasonText(why, style)}`,
      act: 'Tire a ficha, limpe o filtro, veja as entradas',
    }),
    'pump-runs-on': (facts) => ({
      what: `BOMBA NÃO PARA ${since(facts.since)}, depósito pode esvaziar ou transbordar`,
      act: switchOrBrief(facts.why, 'pt', 'Tire-lhe a ficha, depois veja o relé'),
    }),
    'tank-low': (facts) => ({
      what: `DEPÓSITO BAIXO${maybeSince(facts.since)}, ${facts.float === 'low' ? 'só regas mínimas' : 'boia já em cima'}`,
      act: 'Tire a ficha, encha-o ou solte a boia',
    }),
    'float-suspect': (facts) => ({
      what: `Boia marca baixo${maybeSince(facts.since)} mas volta água`,
      act: 'Tire a ficha, depois experimente a boia',
    }),
    'water-on-floor': ({ where }) => WATER_ON_FLOOR.pt.brief(reasonText(where, style)),
    'hold-is-long': (facts) => ({
      what: `Sem rega ${since(facts.since)}: ${reasonText(facts.why, style)}`,
      act: 'Mãos fora da água, depois acabe a paragem',
    }),
    'drying-out': (facts) =>
      facts.keeper === 'keeps'
        ? {
            what: `Rega não vista ${since(facts.since)}, a placa devia regar`,
            act: 'Se não há água, regue à mão',
          }
        : { what: `SEM REGA ${since(facts.since)}: ${reasonText(facts.why, style)}`, act: 'Regue à mão' },
    'flow-sensor-silent': (facts) => ({
      what: `Sensor do retorno sem confiança ${since(facts.since)}, uma rega falhada pode não se ver`,
      act: 'Veja o sensor e o cabo',
    }),
    'flow-sensor-stuck': (facts) => ({
      what: `Sensor do retorno mostra água ${since(facts.since)} com a bomba parada`,
      act: 'Corre água? Se não, tire a ficha e solte o sensor',
    }),
    'clock-stepped': () => ({
      what: 'O relógio do computador está em dúvida, regas como nas horas mais quentes',
      act: 'Acerte data e hora, depois escreva nele: rillkeeper clock',
    }),
    'no-good-temperature': (facts) => ({
      what: `Sem temperatura do ar ${since(facts.since)}, o plano rega a mais`,
      act: 'Veja o termómetro do ar e o cabo',
    }),
    'board-silent': (facts) =>
      facts.keeper === 'keeps'
        ? {
            what: `Placa não responde ${since(facts.since)}, deve regar sozinha`,
            act: KEEPER_BRIEF[facts.deadBoard],
          }
        : { what: `PLACA NÃO RESPONDE ${since(facts.since)}, sem regas`, act: BOARD_BRIEF[facts.deadBoard] },
  },
  briefWilt: (wilt, condition) => {
    const before = condition === 'surely' ? '' : 'Se não, ';
    switch (wilt.kind) {
      case 'not-soon':
        return { before: '', bench: '', after: 'Nada murcha em 20 h' };
      case 'already':
        return { before, bench: wilt.bench, after: `${othersBrief(wilt)} pode já murchar` };
      case 'ahead':
        return {
          before,
          bench: wilt.bench,
          after: ` pode murchar ${wilt.from === null ? `em ${wilt.minutes} min` : clock('à', 'às', wilt.from)}`,
        };
    }
  },
};
