/** The languages in which the farm can be told of an alarm. */
export const LANGUAGES_SPOKEN = ['en', 'pt', 'es', 'fr'] as const;
export type LanguageCode = (typeof LANGUAGES_SPOKEN)[number];
