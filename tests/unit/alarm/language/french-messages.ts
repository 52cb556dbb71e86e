/** As in `message-table`. */
export const FRENCH_MESSAGES: Readonly<Record<string, string>> = {
  'missed, no mains':
    "[127] Ribeira: COUPURE, pas d'eau depuis 13:42. Bench 2 peut flétrir dès 14:40. Différentiel ? Secteur : électricien ; eau à la main.",
  'missed, no contact':
    "[125] Ribeira: Relais non fermé, pas d'eau depuis 13:42. Bench 2 peut flétrir dès 14:40. Voyez carte et relais ; branchez la pompe.",
  'missed, no current':
    "[128] Ribeira: Pompe sans courant, pas d'eau depuis 13:42. Bench 2 peut flétrir dès 14:40. Branchée ? Fusible ? Secteur : électricien.",
  'missed, tank fell':
    "[123] Ribeira: Cuve en baisse, pas d'eau depuis 13:42. Bench 2 peut flétrir dès 14:40. Débranchez, puis cherchez un tuyau défait.",
  'missed, pump ran':
    "[124] Ribeira: Pompe en marche, pas d'eau depuis 13:42. Bench 2 peut flétrir dès 14:40. Débranchez ; voyez filtre, entrée, tuyaux.",
  'missed, switched on':
    "[124] Ribeira: Pompe allumée, pas d'eau depuis 13:42. Bench 2 peut flétrir dès 14:40. Branchée ? Débranchez, puis voyez le filtre.",
  'mains lost':
    '[160] Ribeira: SECTEUR COUPÉ depuis 13:55. Bench 2 peut flétrir dès 14:40. Différentiel ? Secteur : électricien ; eau à la main. 1er Bench 2 : 3,5 L/gouttière/15 min.',
  'mains doubtful':
    '[104] Ribeira: Contact secteur douteux depuis 13:55. Bench 2 peut flétrir dès 14:40. Voyez si la pompe tourne.',
  'board silent':
    "[128] Ribeira: CARTE MUETTE depuis 13:56, pas d'arrosage. Bench 2 peut flétrir dès 14:40. Voyez cable et carte ; la minuterie arrose ?",
  'board silent, keeps':
    "[121] Ribeira: Carte muette depuis 13:56, devrait arroser seule. Sinon Bench 2 peut flétrir dès 14:40. Voyez s'il y a de l'eau.",
  'pump runs on':
    "[119] Ribeira: LA POMPE NE S'ARRETE PAS depuis 13:55, la cuve peut se vider ou déborder. Débranchez-la, puis voyez le relais.",
  'tank low':
    '[129] Ribeira: CUVE BASSE depuis 13:52, arrosages minimes. Bench 2 peut flétrir dès 14:40. Débranchez, remplissez, libérez le flotteur.',
  'float suspect':
    "[124] Ribeira: Flotteur bas depuis 13:27 mais l'eau revient. Bench 2 peut flétrir dès 14:40. Débranchez, puis essayez le flotteur.",
  'tank falls':
    '[140] Ribeira: LA CUVE PERD 48 L/h de trop, ne suffit plus dans 3 h 11 min (17:08). Loin des prises mouillées ; voir sol, gouttières, remplissage.',
  'tank falls, too low':
    '[116] Ribeira: LA CUVE PERD 60 L/h de trop, ne suffit plus. Loin des prises mouillées ; voir sol, gouttières, remplissage.',
  'tank falls, not soon':
    '[100] Ribeira: LA CUVE PERD 16 L/h de trop. Loin des prises mouillées ; voir sol, gouttières, remplissage.',
  'tank full':
    '[118] Ribeira: CUVE PLEINE, 598 L sur 600, peut déborder. Loin des prises mouillées ; fermez le remplissage, voyez la vanne.',
  'too strong':
    "[143] Ribeira: SOLUTION TROP FORTE : 2,60 mS/cm, usuel 1,60. Autre appareil d'abord, puis 195 L remplacés par de l'eau, par étapes ; gants, lunettes.",
  'too strong, room':
    "[132] Ribeira: SOLUTION TROP FORTE : 2,60 mS/cm, usuel 1,60. Autre appareil d'abord, puis ajoutez 64 L d'eau par étapes ; gants, lunettes.",
  'too strong, salty top-up':
    "[134] Ribeira: SOLUTION TROP FORTE : 2,60 mS/cm, usuel 1,60. Autre appareil d'abord, puis diluez, pas avec le remplissage ; gants, lunettes.",
  'too strong, back':
    "[115] Ribeira: La solution redonne 1,70 mS/cm, usuel 1,60. Autre appareil d'abord, puis n'ajoutez rien ; gants, lunettes.",
  'too weak':
    "[127] Ribeira: SOLUTION TROP FAIBLE : 0,90 mS/cm, usuel 1,60. Autre appareil d'abord, puis solution mère peu à peu ; gants, lunettes.",
  'leak and overflow':
    '[129] Ribeira: EAU HORS CIRCUIT : détecteur de fuite et trop-plein mouillés. Loin des prises mouillées ; retour bouché ? Tuyau défait ?',
  hold: "[126] Ribeira: Pas d'arrosage depuis 13:37 : arret demandé par Ana. Bench 2 peut flétrir dès 14:40. Sortez les mains, puis reprenez.",
  'dry, float low':
    "[158] Ribeira: PAS D'EAU depuis 13:37 : le flotteur de la cuve indique bas. Bench 2 peut flétrir dès 14:40. Arrosez à la main. 1er Bench 2 : 3,5 L/gouttière/15 min.",
  'dry, board keeps':
    "[127] Ribeira: Arrosage non vu depuis 13:37, la carte devrait arroser. Sinon Bench 2 peut flétrir dès 14:40. Voyez s'il y a de l'eau.",
  'return lower':
    '[133] Ribeira: Retour plus faible de 21 % (33 sur 41 L/min). Débranchez avant de toucher ; en arrosage voyez chaque entrée, puis le filtre.',
  'weak return':
    "[113] Ribeira: Arrosage faible : il revient 13 L/min, d'habitude 40. Débranchez, nettoyez le filtre, voyez les entrées.",
  'flow silent':
    '[123] Ribeira: Capteur du retour peu fiable depuis 13:47, un arrosage manqué peut passer inapercu. Voyez le capteur et son cable.',
  'flow stuck':
    "[128] Ribeira: Le capteur du retour montre de l'eau depuis 13:56, pompe arretée. L'eau coule ? Sinon débranchez et libérez le capteur.",
  clock:
    "[122] Ribeira: L'horloge de l'ordinateur a sauté, arrosages des heures les plus chaudes. Corrigez date et heure, puis confirmez.",
  'air old':
    "[122] Ribeira: Pas de température de l'air depuis 13:45, le plan arrose plutot trop. Voyez le thermomètre de l'air et son cable.",
  'channel dead':
    '[112] Ribeira: Personne joignable par modem depuis 13:42, une alarme peut se perdre. Voyez-le, et surveillez la serre.',
  'channels dead':
    '[112] Ribeira: Personne joignable par modem depuis 13:42, une alarme peut se perdre. Voyez-le, et surveillez la serre.',
  'not recording':
    "[97] Ribeira: Rien n'est enregistré depuis 13:42. Voyez si le disque de l'ordinateur est plein ou usé.",
  'slow disk':
    "[94] Ribeira: Disque lent, 9 lignes attendent. Voyez si le disque de l'ordinateur est plein ou usé.",
  'safe mode':
    '[108] Ribeira: Ordinateur au minimum : " three starts in 10 min ". Annulez le dernier changement, puis redémarrez.',
  'past late':
    "[114] Ribeira: Journal pas encore ouvert : arrets inconnus. Mains dans l'eau : débranchez. La pompe n'attend que 10 min.",
  'past lost':
    "[103] Ribeira: Arrets et alarmes d'avant perdus. Mains dans l'eau : débranchez. La pompe n'attend que 10 min.",
  'clock fast': "[85] Ribeira: L'horloge de la carte va 7 % plus vite. Changez la carte quand vous pourrez.",
  'clock slow':
    "[90] Ribeira: L'horloge de la carte va 3 % plus lentement. Changez la carte quand vous pourrez.",
  'float unmoved':
    "[119] Ribeira: Flotteur de la cuve immobile depuis 30 jours. Pompe débranchée, levez-le à la main et voyez si l'état le suit.",
  'relay chatters':
    "[133] Ribeira: LE RELAIS CLAQUE depuis 13:55 : il chauffe, risque d'incendie. Débranchez avant d'ouvrir le boitier ; secteur : électricien.",
  'line bad':
    '[140] Ribeira: Ligne vers la carte mauvaise : un message sur 12 arrive abimé. Voyez son cable : fiches, longueur, trop près de celui de la pompe ?',
  'line all bad':
    '[135] Ribeira: Ligne vers la carte mauvaise : presque tout arrive abimé. Voyez son cable : fiches, longueur, trop près de celui de la pompe ?',
  'host hot':
    '[97] Ribeira: Ordinateur trop chaud depuis 13:42 : 78 C. Mains sèches ; ombre et air, dépoussiérez-le.',
  'host large':
    '[124] Ribeira: Le programme occupe trop de mémoire : 214 Mo. Il redémarre seul entre deux arrosages ; signalez-le si cela revient.',
  'host large, by hand':
    '[104] Ribeira: Le programme occupe trop de mémoire : 214 Mo. Arretez-le entre deux arrosages et redémarrez-le.',
  'host battery':
    "[133] Ribeira: Batterie ordinateur 18 %, 11,4 V ; vide : pas d'appel, seule carte programmée arrose. Mains sèches ; voyez son alimentation.",
};
