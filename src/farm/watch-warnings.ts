import type { Farm } from './farm.ts';
import { warnWhen, type FarmWarning } from './warning.ts';

/** What nobody would see, and what a dead board would do. */
export const watchWarnings = ({
  evidence,
  sensors,
  outsideWatcher,
  deadBoard,
  board,
}: Farm): readonly FarmWarning[] => [
  ...warnWhen(evidence.returnFlow === 'none', {
    path: ['evidence', 'returnFlow'],
    says: 'Nothing shows that water came back: floods stay unproven.',
    advice: 'A flow switch in the common return would tell. It proves the loop, not each channel.',
  }),
  ...warnWhen(!sensors.airTemperature, {
    path: ['sensors', 'airTemperature'],
    says: 'Without air temperature every day is treated as hot: rests stay at the short end of their bounds.',
    advice: 'Fit a shaded thermometer at the height of the plants.',
  }),
  ...warnWhen(outsideWatcher === 'nobody', {
    path: ['outsideWatcher'],
    says: 'When the host itself falls silent, nobody is told.',
    advice: 'Agree with somebody who expects the daily message and calls when it does not come.',
  }),
  ...warnWhen(board?.relay.energised === 'low', {
    path: ['board', 'relay', 'energised'],
    says: 'Stock firmware drives its digital pins low when it starts: this relay is pulled from then until the host takes over, and for ever without one.',
    advice: 'Take a relay module that is energised high; with stock firmware no resistor cures this.',
  }),
  ...warnWhen(board?.mainsPresent?.reads === 'high', {
    path: ['board', 'mainsPresent', 'reads'],
    says: 'An open contact means that the mains are there: a cut cable would hide that they are lost.',
    advice: 'Take a contact to ground that is closed while the mains are there, and leave reads at low.',
  }),
  ...warnWhen(board?.probe !== undefined && 'drivenBy' in board.probe, {
    path: ['board', 'probe', 'drivenBy'],
    says: 'A bare cell is read only by a board with firmware of its own: stock firmware cannot drive it, and no strength is read.',
    advice: 'Flash the firmware of this project, or take a module with an analog output.',
  }),
  ...warnWhen(deadBoard === 'pump-runs', {
    path: ['deadBoard'],
    says: 'With a dead board the pump runs on without end, through a normally-closed contact.',
    advice:
      'Only with a hard-wired low-level float in series, a pump rated for continuous duty and a tested overflow path; no loop is safe from a pipe that comes off.',
  }),
];
