import { hasPlants } from '../../src/farm/standing.ts';
import {
  isScenarioName,
  SCENARIOS,
  scenarioOf,
  unfittedFor,
  type Fault,
  type ScenarioName,
} from '../simulated-shed.ts';
import { EXIT } from './exit-code.ts';
import type { AcceptedFarm } from './farm-argument.ts';
import { Refusal } from './refusal.ts';
import type { WeatherOptions } from './weather-argument.ts';

const SCENARIO_COLUMNS = 22;

/** Every scenario that there is, one a line or as data. */
export const scenarioList = (as: 'json' | 'text'): string => {
  const all = Object.entries(SCENARIOS);
  return as === 'json'
    ? JSON.stringify(
        all.map(([scenario, { says, days }]) => ({ scenario, says, days })),
        null,
        2,
      )
    : all.map(([name, { says }]) => `${name.padEnd(SCENARIO_COLUMNS)}${says}`).join('\n');
};

/** The scenario asked for by its name, or null. @throws Refusal */
export const scenarioFrom = (text: string | undefined): ScenarioName | null => {
  if (text === undefined) return null;
  if (isScenarioName(text)) return text;
  throw new Refusal(
    `--scenario: found "${text}"; allowed is one of ${Object.keys(SCENARIOS).join(', ')}.`,
    EXIT.usage,
  );
};

/** What would do nothing on this farm must not pass for what it survives. */
const refuseNothing = (option: string, { file }: AcceptedFarm, lacked: string): never => {
  throw new Refusal(
    `${option}: found no ${lacked} in ${file}; allowed is on a farm that has it: here nothing would happen, which shows nothing.`,
    EXIT.usage,
  );
};

/** @throws Refusal when nothing is there that the fault could break */
export const breakable = ({ kind, bench }: Fault, option: string, accepted: AcceptedFarm): void => {
  const { farm } = accepted;
  const named = bench === undefined ? undefined : farm.benches[bench];
  const bare = named !== undefined && !hasPlants(named) ? `plants on ${named.name} in these days` : null;
  const lacked = unfittedFor(farm, kind) ?? bare;
  if (lacked !== null) refuseNothing(option, accepted, lacked);
};

/** @throws Refusal when the farm has not what the scenario is about */
export const playable = (name: ScenarioName, accepted: AcceptedFarm): void => {
  const lacked = scenarioOf(name).lacks?.(accepted.farm) ?? null;
  if (lacked !== null) refuseNothing(`--scenario ${name}`, accepted, lacked);
};

/** The weather that was asked for, or that of a scenario which is about its weather. @throws Refusal where both are */
export const weatherPlayed = <Options extends WeatherOptions & { readonly scenario?: string }>(
  options: Options,
): Options => {
  const name = scenarioFrom(options.scenario);
  if (name === null || scenarioOf(name).hotDay !== true) return options;
  if (options.weather === undefined && options.columns === undefined && options.drawnDays !== true) {
    return { ...options, hotDay: true };
  }
  throw new Refusal(
    `--scenario ${name}: found other weather asked for as well; allowed is without --weather, --columns and --drawn-days, since it is about the hot day of the farm file.`,
    EXIT.usage,
  );
};
