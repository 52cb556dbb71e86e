import type { Priority } from '../../src/alarm/card.ts';
import { centralOf, whenText, type Rehearsal } from '../cli/rehearsal.ts';
import { escaped, prose } from './markup.ts';

/** Sign and class of each priority: colour never stands alone. */
const PRIORITIES: Readonly<Record<Priority, { readonly sign: string; readonly kind: string }>> = {
  high: { sign: '✖', kind: 'danger' },
  medium: { sign: '▲', kind: 'caution' },
  low: { sign: '○', kind: 'plain' },
};

/** Every alarm that the central run raises, in order. */
export const alarmList = (rehearsal: Rehearsal): string => {
  const raised = centralOf(rehearsal).entries.flatMap((entry) =>
    entry.kind === 'alarm-raised' ? [entry] : [],
  );
  if (raised.length === 0) return '<p>No alarm in the central run.</p>';
  const lines = raised.map(({ at, priority, text }) => {
    const { sign, kind } = PRIORITIES[priority];
    return `<li>${escaped(whenText(rehearsal, at))} <strong class="${kind}">${sign} ${priority}</strong> ${prose(text)}</li>`;
  });
  return [
    '<p>Of the central run, by local time and priority.</p><ul class="alarms">',
    ...lines,
    '</ul>',
  ].join('\n');
};
