import type { LanguageCode } from '../../farm/languages-spoken.ts';
import type { InFour } from './reasons/in-four.ts';

/** The ways to people as an alarm names them, after "by". */
const CHANNELS: Readonly<Record<string, InFour>> = {
  modem: { en: 'modem', pt: 'modem', es: 'módem', fr: 'modem' },
  mail: { en: 'mail', pt: 'e-mail', es: 'correo electrónico', fr: 'e-mail' },
  broker: { en: 'broker', pt: 'broker MQTT', es: 'broker MQTT', fr: 'broker MQTT' },
  /** The part of the program that has all of them. */
  herald: { en: 'herald', pt: 'nenhum canal', es: 'ningún canal', fr: 'aucun canal' },
};

/** A channel that the grower has named (`webhook barn`) keeps its name. */
export const channelName = (name: string, code: LanguageCode): string =>
  Object.hasOwn(CHANNELS, name) ? (CHANNELS[name]?.[code] ?? name) : name;
