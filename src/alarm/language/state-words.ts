import type { LanguageCode } from '../../farm/languages-spoken.ts';
import type { Verdict } from '../../verify/verdict.ts';
import type { Moment } from '../facts.ts';
import { spanOf } from './language.ts';

/** When the next flood comes: by the clock of the farm, or in so many minutes where no clock can be believed. */
export type Ahead =
  { readonly kind: 'clock'; readonly time: string } | { readonly kind: 'in'; readonly span: string };

/** The one sentence of a host about its state, in one language. A span of null is more than a day. */
export interface StateWords {
  /** Before the names of the alarms. */
  readonly alarm: string;
  readonly underOneMinute: string;
  readonly mayWilt: (bench: string) => string;
  readonly left: (span: string | null) => string;
  readonly plantsHave: (span: string | null) => string;
  readonly noBoard: (span: string, left: string) => string;
  /** The board goes on alone; its supply may be gone. */
  readonly keeps: string;
  /** Beside what weighs more. */
  readonly heldBeside: (who: string) => string;
  readonly held: (who: string, until: Ahead, left: string) => string;
  readonly noWater: (span: string, left: string) => string;
  /** `since` in the words of the language. */
  readonly flooding: (since: string, minutesToGo: number) => string;
  readonly benches: Readonly<Record<'wet' | 'drying', string>>;
  readonly lastFlood: (verdict: Verdict['kind'], at: Moment) => string;
  /** After the last flood, or where there was none yet. */
  readonly next: Readonly<Record<'next' | 'first', (at: Ahead) => string>>;
  readonly none: Readonly<Record<'next' | 'first', string>>;
}

const ENGLISH_AHEAD = (at: Ahead): string => (at.kind === 'clock' ? `about ${at.time}` : `in ${at.span}`);

const ENGLISH: StateWords = {
  alarm: 'ALARM:',
  underOneMinute: 'less than a minute',
  mayWilt: (bench) => `${bench} may be wilting already`,
  left: (span) => `${span === null ? 'more than a day' : `about ${span}`} left`,
  plantsHave: (span) => `the plants have ${span === null ? 'more than a day' : `about ${span}`}`,
  noBoard: (span, left) => `NO BOARD for ${span}, ${left}.`,
  keeps: 'With power it floods by its own table.',
  heldBeside: (who) => `Held by ${who}.`,
  held: (who, until, left) =>
    `Held by ${who} ${until.kind === 'clock' ? `until ${until.time}` : `for another ${until.span}`}; ${left}.`,
  noWater: (span, left) => `NO WATER for ${span}, ${left}.`,
  flooding: (since, minutes) => `Flooding ${since}, ${minutes} min to go.`,
  benches: { wet: 'Wet.', drying: 'Drying.' },
  lastFlood: (verdict, at) =>
    `Last flood ${verdict} ${at.kind === 'clock' ? at.time : `${spanOf(at.minutes)} ago`}`,
  next: {
    next: (at) => `next ${ENGLISH_AHEAD(at)}`,
    first: (at) => `First flood ${ENGLISH_AHEAD(at)}`,
  },
  none: { next: 'no flood is planned now', first: 'No flood is planned now' },
};

/** One o'clock is singular in Portuguese and Spanish: "às 14:20", "à 01:20". */
const isOne = (time: string): boolean => time.startsWith('01:');

const PORTUGUESE_VERDICTS: Readonly<Record<Verdict['kind'], string>> = {
  confirmed: 'confirmada',
  degraded: 'incompleta',
  unproven: 'por confirmar',
  missed: 'falhada',
  withheld: 'retida',
};
const PORTUGUESE_AHEAD = (at: Ahead): string =>
  at.kind === 'clock' ? `por volta ${isOne(at.time) ? 'da' : 'das'} ${at.time}` : `dentro de ${at.span}`;

const PORTUGUESE: StateWords = {
  alarm: 'ALARME:',
  underOneMinute: 'menos de um minuto',
  mayWilt: (bench) => `${bench} pode já estar a murchar`,
  left: (span) => (span === null ? 'resta mais de um dia' : `restam cerca de ${span}`),
  plantsHave: (span) => `as plantas têm ${span === null ? 'mais de um dia' : `cerca de ${span}`}`,
  noBoard: (span, left) => `SEM PLACA há ${span}, ${left}.`,
  keeps: 'Com corrente, ela rega pela sua tabela.',
  heldBeside: (who) => `Paragem de ${who}.`,
  held: (who, until, left) =>
    `Paragem de ${who} ${until.kind === 'clock' ? `até ${isOne(until.time) ? 'à' : 'às'} ${until.time}` : `por mais ${until.span}`}; ${left}.`,
  noWater: (span, left) => `SEM ÁGUA há ${span}, ${left}.`,
  flooding: (since, minutes) => `A regar ${since}, faltam ${minutes} min.`,
  benches: { wet: 'Bancadas molhadas.', drying: 'Bancadas a secar.' },
  lastFlood: (verdict, at) =>
    `Última rega ${PORTUGUESE_VERDICTS[verdict]} ${at.kind === 'clock' ? `${isOne(at.time) ? 'à' : 'às'} ${at.time}` : `há ${spanOf(at.minutes)}`}`,
  next: {
    next: (at) => `próxima ${PORTUGUESE_AHEAD(at)}`,
    first: (at) => `Primeira rega ${PORTUGUESE_AHEAD(at)}`,
  },
  none: { next: 'nenhuma rega prevista agora', first: 'Nenhuma rega prevista agora' },
};

const SPANISH_VERDICTS: Readonly<Record<Verdict['kind'], string>> = {
  confirmed: 'confirmado',
  degraded: 'incompleto',
  unproven: 'sin confirmar',
  missed: 'fallido',
  withheld: 'retenido',
};
const SPANISH_CLOCK = (time: string): string => `${isOne(time) ? 'la' : 'las'} ${time}`;
const SPANISH_AHEAD = (at: Ahead): string =>
  at.kind === 'clock' ? `hacia ${SPANISH_CLOCK(at.time)}` : `dentro de ${at.span}`;

const SPANISH: StateWords = {
  alarm: 'ALARMA:',
  underOneMinute: 'menos de un minuto',
  mayWilt: (bench) => `${bench} puede estar ya marchitándose`,
  left: (span) => (span === null ? 'queda más de un día' : `quedan unos ${span}`),
  plantsHave: (span) => `las plantas tienen ${span === null ? 'más de un día' : `unos ${span}`}`,
  noBoard: (span, left) => `SIN PLACA desde hace ${span}, ${left}.`,
  keeps: 'Con corriente, riega según su tabla.',
  heldBeside: (who) => `Parada de ${who}.`,
  held: (who, until, left) =>
    `Parada de ${who} ${until.kind === 'clock' ? `hasta ${SPANISH_CLOCK(until.time)}` : `durante ${until.span} más`}; ${left}.`,
  noWater: (span, left) => `SIN AGUA desde hace ${span}, ${left}.`,
  flooding: (since, minutes) => `Regando ${since}, faltan ${minutes} min.`,
  benches: { wet: 'Mesas mojadas.', drying: 'Mesas secándose.' },
  lastFlood: (verdict, at) =>
    `Último riego ${SPANISH_VERDICTS[verdict]} ${at.kind === 'clock' ? `a ${SPANISH_CLOCK(at.time)}` : `hace ${spanOf(at.minutes)}`}`,
  next: {
    next: (at) => `el siguiente ${SPANISH_AHEAD(at)}`,
    first: (at) => `Primer riego ${SPANISH_AHEAD(at)}`,
  },
  none: { next: 'ningún riego previsto ahora', first: 'Ningún riego previsto ahora' },
};

const FRENCH_VERDICTS: Readonly<Record<Verdict['kind'], string>> = {
  confirmed: 'confirmé',
  degraded: 'incomplet',
  unproven: 'sans preuve',
  missed: 'manqué',
  withheld: 'retenu',
};
const FRENCH_AHEAD = (at: Ahead): string => (at.kind === 'clock' ? `vers ${at.time}` : `dans ${at.span}`);

const FRENCH: StateWords = {
  alarm: 'ALARME :',
  underOneMinute: "moins d'une minute",
  mayWilt: (bench) => `${bench} est peut-être déjà en train de flétrir`,
  left: (span) => `il reste ${span === null ? "plus d'un jour" : `environ ${span}`}`,
  plantsHave: (span) => `les plantes ont ${span === null ? "plus d'un jour" : `environ ${span}`}`,
  noBoard: (span, left) => `PAS DE CARTE depuis ${span}, ${left}.`,
  keeps: 'Sous tension, elle arrose selon son programme.',
  heldBeside: (who) => `Arrêt de ${who}.`,
  held: (who, until, left) =>
    `Arrêt de ${who} ${until.kind === 'clock' ? `jusqu'à ${until.time}` : `encore pour ${until.span}`} ; ${left}.`,
  noWater: (span, left) => `PAS D'EAU depuis ${span}, ${left}.`,
  flooding: (since, minutes) => `Arrosage ${since}, encore ${minutes} min.`,
  benches: { wet: 'Tables mouillées.', drying: 'Tables qui sèchent.' },
  lastFlood: (verdict, at) =>
    `Dernier arrosage ${FRENCH_VERDICTS[verdict]} ${at.kind === 'clock' ? `à ${at.time}` : `il y a ${spanOf(at.minutes)}`}`,
  next: {
    next: (at) => `prochain ${FRENCH_AHEAD(at)}`,
    first: (at) => `Premier arrosage ${FRENCH_AHEAD(at)}`,
  },
  none: { next: 'aucun arrosage prévu maintenant', first: 'Aucun arrosage prévu maintenant' },
};

export const STATE_WORDS: Readonly<Record<LanguageCode, StateWords>> = {
  en: ENGLISH,
  pt: PORTUGUESE,
  es: SPANISH,
  fr: FRENCH,
};
