import type { LanguageCode } from '../../../farm/languages-spoken.ts';

/**
 * One reason in every language, as a part of a sentence; the English one word for word as the program writes it. `{places}`
 * are numbers, but for those that src/alarm/reason.ts names.
 */
export type InFour = Readonly<Record<LanguageCode, string>>;
