import type { LanguageCode } from '../../farm/languages-spoken.ts';
import type { InFour } from './reasons/in-four.ts';

/** To a listed person whose text is neither an "ok" nor a "?". One text message, as each of the languages fits in it. */
export const NOT_UNDERSTOOD: InFour = {
  en: 'Not understood. Send only ok when you have seen the alarms, or only ? to be told how it stands.',
  pt: 'Não entendi. Envie só ok quando tiver visto os alarmes, ou só ? para saber como está.',
  es: 'No he entendido. Envíe solo ok cuando haya visto las alarmas, o solo ? para saber cómo está.',
  fr: 'Pas compris. Envoyez seulement ok quand vous avez vu les alarmes, ou seulement ? pour savoir où on en est.',
};

/** Whoever sent an "ok" may else believe that it was taken, and sleep on. Said before the sentence of the host. */
export const NOTHING_SEEN: InFour = {
  en: 'Nothing acknowledged: no alarm had been told to you when your "ok" was sent.',
  pt: 'Nada confirmado: quando enviou o "ok", nenhum alarme lhe tinha sido comunicado.',
  es: 'Nada confirmado: cuando envió el "ok", no se le había comunicado ninguna alarma.',
  fr: 'Rien acquitté : quand vous avez envoyé "ok", aucune alarme ne vous avait été signalée.',
};

/** To whoever asks before the host has looked once. */
export const NOTHING_KNOWN: InFour = {
  en: 'The host has said nothing yet.',
  pt: 'O computador ainda não disse nada.',
  es: 'El ordenador aún no ha dicho nada.',
  fr: "L'ordinateur n'a encore rien dit.",
};

/** Before a sentence that is no longer fresh. */
export const SAID_BEFORE: Readonly<Record<LanguageCode, (minutes: number) => string>> = {
  en: (minutes) => `${minutes} min ago:`,
  pt: (minutes) => `Há ${minutes} min:`,
  es: (minutes) => `Hace ${minutes} min:`,
  fr: (minutes) => `Il y a ${minutes} min :`,
};
