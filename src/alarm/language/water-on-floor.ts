import type { LanguageCode } from '../../farm/languages-spoken.ts';
import type { Brief, Told } from './language.ts';

/** Water where none should be, by the words that name which sensor is wet. */
export const WATER_ON_FLOOR: Readonly<
  Record<LanguageCode, { readonly card: (where: string) => Told; readonly brief: (where: string) => Brief }>
> = {
  en: {
    card: (where) => ({
      cause: `Water where none should be: ${where}.`,
      consequence: 'Floods are shortened or stopped until it is dry.',
      firstAction:
        'Keep off wet sockets. Look for a blocked return, a pipe that came off, a float valve set too high. All dry? Wipe the sensor: while it says wet, floods stay short.',
    }),
    brief: (where) => ({
      what: `WATER WHERE NONE SHOULD BE: ${where}`,
      act: 'Keep off wet sockets; blocked return? Loose pipe?',
    }),
  },
  pt: {
    card: (where) => ({
      cause: `Água onde não devia haver: ${where}.`,
      consequence: 'As regas são encurtadas ou paradas até secar.',
      firstAction:
        'Não se chegue a tomadas molhadas. Procure um retorno entupido, um tubo solto, uma válvula de boia alta demais. Tudo seco? Limpe o sensor: enquanto disser molhado, as regas ficam curtas.',
    }),
    brief: (where) => ({
      what: `ÁGUA ONDE NÃO DEVIA: ${where}`,
      act: 'Longe de tomadas molhadas; retorno entupido? Tubo solto?',
    }),
  },
  es: {
    card: (where) => ({
      cause: `Agua donde no debería haberla: ${where}.`,
      consequence: 'Los riegos se acortan o se paran hasta que se seque.',
      firstAction:
        'No se acerque a enchufes mojados. Busque un retorno atascado, un tubo suelto, una válvula de flotador demasiado alta. ¿Todo seco? Limpie el sensor: mientras diga mojado, los riegos siguen cortos.',
    }),
    brief: (where) => ({
      what: `AGUA DONDE NO DEBE: ${where}`,
      act: 'Lejos de enchufes mojados; ¿retorno atascado? ¿Tubo suelto?',
    }),
  },
  fr: {
    card: (where) => ({
      cause: `De l'eau là où il n'en faut pas : ${where}.`,
      consequence: "Les arrosages sont raccourcis ou arrêtés jusqu'à ce que ce soit sec.",
      firstAction:
        "N'approchez pas des prises mouillées. Cherchez un retour bouché, un tuyau défait, un robinet à flotteur trop haut. Tout est sec ? Essuyez le capteur : tant qu'il dit mouillé, les arrosages restent courts.",
    }),
    brief: (where) => ({
      what: `EAU HORS CIRCUIT : ${where}`,
      act: 'Loin des prises mouillées ; retour bouché ? Tuyau défait ?',
    }),
  },
};
