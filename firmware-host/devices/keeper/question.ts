import { secondsBetween, type MonotonicMillis } from '../../../src/time/instant.ts';
import type { BoardMessage } from './board-message.ts';
import { HOST_TYPE, type HostMessage } from './host-message.ts';

/** What was asked and has not been answered. */
export interface Question {
  readonly seq: number;
  readonly message: HostMessage;
  readonly askedAt: MonotonicMillis;
  readonly sentAt: MonotonicMillis;
  /** Whether it is sent again while nothing answers. A heartbeat never is: it stands for one completed tick. */
  readonly missing: 'say-again' | 'let-be';
}

/** An answer is there well within this, also while the board does other things. */
export const AGAIN_MILLIS = 300;
const SEQ_NUMBERS = 256;

export const seqAfter = (seq: number): number => (seq + 1) % SEQ_NUMBERS;

const answersKind: Readonly<Record<HostMessage['kind'], BoardMessage['kind']>> = {
  hello: 'hello',
  status: 'status',
  claim: 'ack',
  heartbeat: 'status',
  pump: 'ack',
  hold: 'ack',
  'table-put': 'ack',
  'table-get': 'table',
  'log-get': 'log',
  'let-go': 'ack',
};

const isAnswer = ({ message, seq }: Question, answerSeq: number, answer: BoardMessage): boolean =>
  seq === answerSeq &&
  answersKind[message.kind] === answer.kind &&
  (answer.kind !== 'ack' || answer.type === HOST_TYPE[message.kind]);

/** The question to which this is the answer; null when nobody asked, or it has been answered already. */
export const questionOf = (
  questions: readonly Question[],
  seq: number,
  answer: BoardMessage,
): Question | null => questions.find((question) => isAnswer(question, seq, answer)) ?? null;

const tellsStatus = ({ message }: Question): boolean => answersKind[message.kind] === 'status';

/**
 * What is still open after an answer. An answer about the state of the board also settles the older questions about
 * it: what comes to those later is older news.
 */
export const withoutAnswered = (questions: readonly Question[], answered: Question): readonly Question[] => {
  const place = questions.indexOf(answered);
  return questions.filter(
    (question, at) => at !== place && !(tellsStatus(answered) && tellsStatus(question) && at < place),
  );
};

export const asksFor = (questions: readonly Question[], kind: HostMessage['kind']): boolean =>
  questions.some(({ message }) => message.kind === kind);

export const withoutOlder = (
  questions: readonly Question[],
  seconds: number,
  now: MonotonicMillis,
): readonly Question[] => questions.filter(({ askedAt }) => secondsBetween(askedAt, now) < seconds);
