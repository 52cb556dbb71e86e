import type { LanguageCode } from '../../farm/languages-spoken.ts';
import type { FactsOfKind } from '../facts.ts';
import type { Brief, Told } from './language.ts';

type Facts = FactsOfKind['tank-full'];

/** A tank that is full to its brim and stays so. */
export const TANK_FULL: Readonly<
  Record<LanguageCode, { readonly card: (facts: Facts) => Told; readonly brief: (facts: Facts) => Brief }>
> = {
  en: {
    card: ({ litres, ofLitres }) => ({
      cause: `The tank is full to its brim and stays so: ${litres} of ${ofLitres} L.`,
      consequence: 'It may run over, and the solution grows weaker.',
      firstAction: 'Keep off wet sockets. Close the top-up by hand, then free, mend or lower its valve.',
    }),
    brief: ({ litres, ofLitres }) => ({
      what: `TANK FULL, ${litres} of ${ofLitres} L, may run over`,
      act: 'Keep off wet sockets; close the top-up, see its valve',
    }),
  },
  pt: {
    card: ({ litres, ofLitres }) => ({
      cause: `O depósito está cheio até à borda e assim fica: ${litres} de ${ofLitres} L.`,
      consequence: 'Pode transbordar, e a solução fica mais fraca.',
      firstAction:
        'Não se chegue a tomadas molhadas. Feche o enchimento à mão, depois solte, repare ou baixe a válvula.',
    }),
    brief: ({ litres, ofLitres }) => ({
      what: `DEPÓSITO CHEIO, ${litres} de ${ofLitres} L, pode transbordar`,
      act: 'Longe de tomadas molhadas; feche o enchimento, veja a válvula',
    }),
  },
  es: {
    card: ({ litres, ofLitres }) => ({
      cause: `El depósito está lleno hasta el borde y sigue así: ${litres} de ${ofLitres} L.`,
      consequence: 'Puede rebosar, y la solución se hace más débil.',
      firstAction:
        'No se acerque a enchufes mojados. Cierre el llenado a mano, luego suelte, repare o baje la válvula.',
    }),
    brief: ({ litres, ofLitres }) => ({
      what: `DEPÓSITO LLENO, ${litres} de ${ofLitres} L, puede rebosar`,
      act: 'Lejos de enchufes mojados; cierre el llenado, mire la válvula',
    }),
  },
  fr: {
    card: ({ litres, ofLitres }) => ({
      cause: `La cuve est pleine à ras bord et le reste : ${litres} L sur ${ofLitres}.`,
      consequence: "Elle peut déborder, et la solution s'affaiblit.",
      firstAction:
        "N'approchez pas des prises mouillées. Fermez le remplissage à la main, puis libérez, réparez ou abaissez sa vanne.",
    }),
    brief: ({ litres, ofLitres }) => ({
      what: `CUVE PLEINE, ${litres} L sur ${ofLitres}, peut déborder`,
      act: 'Loin des prises mouillées ; fermez le remplissage, voyez la vanne',
    }),
  },
};
