import { createHash } from 'node:crypto';
import { homedir } from 'node:os';
import { join } from 'node:path';

const LETTERS_MAX = 60;
/** Enough to tell the farms of one machine apart. */
const DIGITS = 8;
/** A letter or digit of another script than the Latin one, of which nothing is left in a path. */
const OTHER_SCRIPT = /(?![a-z0-9]|\p{Script=Latin})[\p{Ll}\p{Lo}\p{N}]/u;

const smallOf = (farm: string): string => farm.normalize('NFKD').toLowerCase();

/** What of a name a path can show. */
const shownOf = (farm: string): string =>
  smallOf(farm)
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, LETTERS_MAX);

/**
 * The farm's name as part of a path: small letters, digits and dashes. Two names that differ in what a path cannot show differ
 * by digits of their hash.
 */
export const slug = (farm: string): string => {
  const [small, shown] = [smallOf(farm), shownOf(farm)];
  if (shown !== '' && !OTHER_SCRIPT.test(small)) return shown;
  return `${shown === '' ? 'farm' : shown}-${createHash('sha256').update(small).digest('hex').slice(0, DIGITS)}`;
};

/**
 * What belongs to no farm alone, and the folders of them all. `RILLKEEPER_STATE` names another than the usual one of the XDG
 * base directory specification.
 */
export const stateRoot = (env: NodeJS.ProcessEnv = process.env): string => {
  const own = env['RILLKEEPER_STATE'];
  const base = env['XDG_STATE_HOME'];
  return own !== undefined && own !== ''
    ? own
    : join(base !== undefined && base !== '' ? base : join(homedir(), '.local', 'state'), 'rillkeeper');
};

/** Where the host keeps what must outlive it: calibration, status. */
export const stateFolder = (farm: string, env?: NodeJS.ProcessEnv): string =>
  join(stateRoot(env), slug(farm));

/** Where versions kept it that dropped all letters of other scripts. */
export const earlierStateFolder = (farm: string, env?: NodeJS.ProcessEnv): string =>
  join(stateRoot(env), shownOf(farm) || 'farm');

/** A simulated shed keeps its state apart: it must not speak for a farm whose real host runs. */
export const demoFolder = (farm: string, env?: NodeJS.ProcessEnv): string => `${stateFolder(farm, env)}-demo`;
