import type { Reason } from '../reason.ts';

/**
 * A pump that draws current past its open relay: a switch beside the relay was left by hand, or a wire leads past it. Whoever
 * comes shall turn a switch, and not pull apart a relay that is well; where there is no switch the plug still stops the pump.
 */
export const isByHand = (why: Reason): boolean => why.kind === 'named' && why.name === 'past-its-relay';

const WORDS = {
  en: {
    action: 'Is its switch left by hand? Turn it back; if there is none, pull the plug of the pump.',
    act: 'Switch left by hand? Turn it back, else pull the plug',
  },
  pt: {
    action:
      'O interruptor ficou em manual? Volte a pô-lo em automático; se não houver, tire a bomba da tomada.',
    act: 'Ficou em manual? Ponha em automático ou tire a ficha',
  },
  es: {
    action:
      '¿Quedó el interruptor en manual? Vuelva a ponerlo en automático; si no lo hay, desenchufe la bomba.',
    act: '¿Quedó en manual? Póngala en automático o desenchufe',
  },
  fr: {
    action:
      "L'interrupteur est-il resté en manuel ? Remettez-le en automatique ; s'il n'y en a pas, débranchez la pompe.",
    act: 'Restée en manuel ? Remettez en auto ou débranchez',
  },
} as const;

/** What to do first about a pump that runs on, and the same in few letters: the switch, or `otherwise` the relay. */
export const switchOr = (why: Reason, language: keyof typeof WORDS, otherwise: string): string =>
  isByHand(why) ? WORDS[language].action : otherwise;
export const switchOrBrief = (why: Reason, language: keyof typeof WORDS, otherwise: string): string =>
  isByHand(why) ? WORDS[language].act : otherwise;
