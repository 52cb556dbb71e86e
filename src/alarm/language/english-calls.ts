import { countsText, type CallWords } from './call-language.ts';

const COUNTS = {
  weak: (count: number) => `${count} weak`,
  unproven: (count: number) => `${count} unproven`,
  missed: (count: number) => `${count} missed`,
  withheld: (count: number) => `${count} withheld`,
};

export const ENGLISH_CALLS: CallWords = {
  names: {
    'missed-flood': 'missed flood',
    'weak-flow': 'weak flood',
    'mains-lost': 'mains lost',
    'pump-runs-on': 'pump runs on',
    'tank-low': 'tank low',
    'float-suspect': 'tank float in doubt',
    'tank-falls': 'tank falls',
    'tank-full': 'tank brim-full',
    'water-on-floor': 'water on the floor',
    'flow-sensor-silent': 'flow sensor silent',
    'flow-sensor-stuck': 'flow sensor stuck',
    'clock-stepped': 'clock has jumped',
    'no-good-temperature': 'no good temperature',
    'hold-is-long': 'long hold',
    'drying-out': 'benches drying',
    'board-silent': 'board silent',
    'channel-dead': 'a way to call is dead',
    'not-recording': 'not recording',
    'safe-mode': 'safe mode',
    'clock-drift': 'clocks drift apart',
    'relay-chatters': 'relay chatters',
    'float-unmoved': 'float unmoved',
    'line-bad': 'bad line to the board',
    'host-hot': 'host too hot',
    'host-large': 'host takes too much memory',
    'host-battery': 'host battery low',
  },
  openings: { raised: '', again: 'Still so: ', escalated: 'Nobody has answered yet: ', returned: 'Over: ' },
  briefOpenings: { raised: '', again: 'Still: ', escalated: 'No answer yet: ', returned: 'Over: ' },
  comesAndGoes: 'It comes and goes.',
  lists: { with: 'With it:', still: 'Still so:', over: 'Over:', first: 'First came:' },
  allWell: 'All well.',
  floods: (counts) =>
    `${counts.confirmed} ${counts.confirmed === 1 ? 'flood' : 'floods'} confirmed in 24 h, ${countsText(counts, COUNTS)}.`,
  tank: (tank) => (typeof tank === 'number' ? `Tank ${tank.toFixed(0)} L.` : `Tank ${tank}.`),
  strength: (strength) => `Strength ${strength.toFixed(1)} mS/cm.`,
  withoutPump: (span) => `Without the pump: ${span === null ? 'more than a day' : `about ${span}`} left.`,
};
