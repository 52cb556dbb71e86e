import { afterSeconds, type MonotonicMillis } from '../../../src/time/instant.ts';
import type { HostMessage } from './host-message.ts';
import type { LinkEffect, LinkState, Phase, Step } from './link-state.ts';
import { AGAIN_MILLIS, seqAfter, type Question } from './question.ts';

export const unchanged = (state: LinkState): Step => ({ state, effects: [] });

/** Goes on with what a step has come to. */
export const andThen = (step: Step, next: (state: LinkState) => Step): Step => {
  const { state, effects } = next(step.state);
  return { state, effects: [...step.effects, ...effects] };
};

export const withEffect = (state: LinkState, ...effects: readonly LinkEffect[]): Step => ({ state, effects });

export const ask = (
  state: LinkState,
  message: HostMessage,
  missing: Question['missing'],
  now: MonotonicMillis,
): Step => {
  const seq = state.nextSeq;
  const question: Question = { seq, message, askedAt: now, sentAt: now, missing };
  return {
    state: { ...state, nextSeq: seqAfter(seq), questions: [...state.questions, question] },
    effects: [{ kind: 'send', seq, message }],
  };
};

/** Says something whose answer nobody waits for. */
export const tell = (state: LinkState, message: HostMessage): Step => ({
  state: { ...state, nextSeq: seqAfter(state.nextSeq) },
  effects: [{ kind: 'send', seq: state.nextSeq, message }],
});

/** Into another phase; what was asked in the one before has no answer that could be used. */
export const into = (state: LinkState, phase: Phase): LinkState => ({ ...state, phase, questions: [] });

/** Into another phase with its question, which is asked until it is answered. */
export const intoAsking = (
  state: LinkState,
  phase: Phase,
  message: HostMessage,
  now: MonotonicMillis,
): Step => ask(into(state, phase), message, 'say-again', now);

/** Says again what has not been answered. */
export const saidAgain = (state: LinkState, now: MonotonicMillis): Step => {
  const effects: LinkEffect[] = [];
  const questions = state.questions.map((question) => {
    if (question.missing === 'let-be' || now - question.sentAt < AGAIN_MILLIS) return question;
    effects.push({ kind: 'send', seq: question.seq, message: question.message });
    return { ...question, sentAt: now };
  });
  return { state: { ...state, questions }, effects };
};

/** When something may have to be said again; null when all has been answered. */
export const nextDue = ({ questions }: LinkState): MonotonicMillis | null => {
  const dues = questions
    .filter(({ missing }) => missing === 'say-again')
    .map(({ sentAt }) => afterSeconds(sentAt, AGAIN_MILLIS / 1000));
  return dues.reduce<MonotonicMillis | null>(
    (first, due) => (first === null || due < first ? due : first),
    null,
  );
};
