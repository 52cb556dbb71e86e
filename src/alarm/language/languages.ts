import type { Farm } from '../../farm/farm.ts';
import type { LanguageCode } from '../../farm/languages-spoken.ts';
import { ENGLISH } from './english.ts';
import { FRENCH } from './french.ts';
import type { Language } from './language.ts';
import { PORTUGUESE } from './portuguese.ts';
import { SPANISH } from './spanish.ts';

export const LANGUAGES: Readonly<Record<LanguageCode, Language>> = {
  en: ENGLISH,
  pt: PORTUGUESE,
  es: SPANISH,
  fr: FRENCH,
};

/** The language that the farm file asks for. */
export const languageOf = ({ language }: Pick<Farm, 'language'>): Language => LANGUAGES[language];
