import { ENGLISH_MESSAGES } from './english-messages.ts';
import { FRENCH_MESSAGES } from './french-messages.ts';
import { PORTUGUESE_MESSAGES } from './portuguese-messages.ts';
import { SPANISH_MESSAGES } from './spanish-messages.ts';

/** Every kind of alarm as one text message, by language: the places it takes in brackets, and the text. */
export const MESSAGES = {
  en: ENGLISH_MESSAGES,
  pt: PORTUGUESE_MESSAGES,
  es: SPANISH_MESSAGES,
  fr: FRENCH_MESSAGES,
} as const;
