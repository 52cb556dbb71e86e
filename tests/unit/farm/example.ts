import { parseFarm, type FarmProblem } from '../../../src/farm/parse.ts';
import type { Farm } from '../../../src/farm/farm.ts';

const bench = (name: string, crop: string, sown: string, slopePercent: number): object => ({
  name,
  channels: 12,
  lengthMetres: 6,
  innerDiameterMillimetres: 75,
  slopePercent,
  litresPerMinute: 10,
  liftMetres: slopePercent === 2 ? 1.3 : 1.1,
  plants: 300,
  crop,
  sown,
});

/** What the file of an invented farm on a hillside holds; a fresh copy at every call. */
export const exampleFile = (): unknown => ({
  farm: 'Hillside',
  invented: { today: '2026-07-14' },
  place: { latitudeDegrees: 37.1, longitudeDegrees: -8, elevationMetres: 180, timeZone: 'Europe/Lisbon' },
  pump: { headMetresMax: 9, litresPerMinuteMax: 90, watts: 250 },
  tank: { litres: 600, usualLitres: 520, dryLitres: 60, topUp: 'by-hand' },
  benches: [
    bench('Bench 1', 'butterhead', '2026-06-26', 2),
    bench('Bench 2', 'butterhead', '2026-06-04', 2),
    bench('Bench 3', 'basil', '2026-06-08', 2.5),
    bench('Bench 4', 'pak-choi', '2026-06-14', 2.5),
  ],
  dayPlan: [
    { part: 'early morning', from: '06:00', to: '08:00', floods: 2, floodMinutes: 20 },
    { part: 'heat of the day', from: '08:00', to: '16:00', restMinutes: 25, floodMinutes: 20 },
    { part: 'late afternoon', from: '16:00', to: 'sunset+00:30', floods: 4, floodMinutes: 20 },
    { part: 'night', from: 'sunset+00:30', to: '06:00', floods: 3, floodMinutes: 20 },
  ],
  temperatureRule: { referenceCelsius: 30, restPercentPerDegree: -4 },
  bounds: {
    restMinutesByDay: { shortest: 10, longest: 75 },
    restMinutesByNight: { shortest: 20, longest: 210 },
    floodMinutes: { shortest: 10, longest: 35 },
    startsPerHour: 4,
  },
  floors: { stress: 0.5, wilt: 0.2 },
  evidence: { returnFlow: 'meter', tankFloat: true },
  sensors: { airTemperature: true, humidity: true },
  hotDay: { minCelsius: 21, maxCelsius: 36, humidityPercent: 45 },
  deadBoard: 'plain-timer',
  outsideWatcher: { who: 'a neighbour' },
  herald: {
    people: [{ name: 'Ana', phone: '+447700900123', email: 'ana@example.org' }],
    modem: { port: '/dev/serial/by-id/usb-modem-if02' },
    mail: { host: 'mail.example.org', from: 'shed@example.org' },
    allWellAt: '07:30',
  },
});

export type Change = readonly [path: readonly (string | number)[], value: unknown];

/** The example with values set at paths; `undefined` removes a key. */
export const changed = (...changes: readonly Change[]): unknown => {
  const file = exampleFile();
  for (const [path, value] of changes) {
    let parent = file as Record<string | number, unknown>;
    for (const step of path.slice(0, -1)) parent = parent[step] as Record<string | number, unknown>;
    const last = path.at(-1)!;
    if (value === undefined) Reflect.deleteProperty(parent, last);
    else parent[last] = value;
  }
  return file;
};

export const farmWith = (...changes: readonly Change[]): Farm => {
  const parsed = parseFarm(changed(...changes));
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems, null, 2));
  return parsed.farm;
};

export const problemsWith = (...changes: readonly Change[]): readonly FarmProblem[] => {
  const parsed = parseFarm(changed(...changes));
  return parsed.ok ? [] : parsed.problems;
};

/** `benches[0].slopePercent` */
export const placesOf = (problems: readonly FarmProblem[]): readonly string[] =>
  problems.map(({ path }) => path.join('.'));

/** What the example says is fitted, wired: a return meter, a float, air and humidity. */
export const boardWith = (change: object = {}): Change => [
  ['board'],
  {
    relay: { pin: 7 },
    returnFlow: { pin: 2, pulsesPerLitre: 1.5 },
    tankFloat: { pin: 4 },
    airThermistor: { pin: 'A0' },
    humidity: { pin: 'A4' },
    ...change,
  },
];
