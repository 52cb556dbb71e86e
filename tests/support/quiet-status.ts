import type { Status } from '../../firmware-host/storage/status-file.ts';

/** What the host of an invented farm says of itself while nothing is to be told. */
export const QUIET_STATUS: Status = {
  farm: 'Hill',
  timeZone: 'Europe/Lisbon',
  pid: 1,
  writtenAt: '2026-07-14T11:00:00.000Z',
  shedTime: null,
  simulated: false,
  says: 'Wet.',
  board: { link: 'up', says: 'up', warning: null },
  pumpAsked: 'off',
  timeLeft: { minutes: 120, bench: null },
  benches: [],
  alarms: [],
  readings: [],
};
