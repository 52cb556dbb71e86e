/** As in `message-table`. */
export const SPANISH_MESSAGES: Readonly<Record<string, string>> = {
  'missed, no mains':
    '[129] Ribeira: SIN LUZ, sin agua desde las 13:42. Bench 2 puede mustiarse a las 14:40. Vea diferencial; red: electricista; agua a mano.',
  'missed, no contact':
    '[123] Ribeira: Relé no cierra, sin agua desde las 13:42. Bench 2 puede mustiarse a las 14:40. Vea placa y relé; enchufe la bomba.',
  'missed, no current':
    '[130] Ribeira: Bomba no consume, sin agua desde las 13:42. Bench 2 puede mustiarse a las 14:40. ¿Enchufada? ¿Fusible? Red: electricista.',
  'missed, tank fell':
    '[125] Ribeira: Bajo el deposito, sin agua desde las 13:42. Bench 2 puede mustiarse a las 14:40. Desenchufe y busque un tubo suelto.',
  'missed, pump ran':
    '[128] Ribeira: Bomba en marcha, sin agua desde las 13:42. Bench 2 puede mustiarse a las 14:40. Desenchufe; vea filtro, entrada, tubos.',
  'missed, switched on':
    '[128] Ribeira: Bomba encendida, sin agua desde las 13:42. Bench 2 puede mustiarse a las 14:40. ¿Enchufada? Desenchufe y vea el filtro.',
  'mains lost':
    '[157] Ribeira: SIN LUZ desde las 13:55. Bench 2 puede mustiarse a las 14:40. Vea diferencial; red: electricista; agua a mano. 1.o Bench 2: 3,5 L/canal cada 15 min.',
  'mains doubtful':
    '[119] Ribeira: Contacto de red dice sin luz desde las 13:55, dudoso. Bench 2 puede mustiarse a las 14:40. ¿Funciona la bomba?',
  'board silent':
    '[130] Ribeira: PLACA NO RESPONDE desde las 13:56, sin riegos. Bench 2 puede mustiarse a las 14:40. Vea la placa; ¿riega el temporizador?',
  'board silent, keeps':
    '[124] Ribeira: Placa no responde desde las 13:56, deberia regar sola. Si no, Bench 2 puede mustiarse a las 14:40. Vea si hay agua.',
  'pump runs on':
    '[114] Ribeira: LA BOMBA NO PARA desde las 13:55, el deposito puede vaciarse o rebosar. Desenchufela, luego mire el relé.',
  'tank low':
    '[130] Ribeira: DEPOSITO BAJO desde las 13:52, riegos minimos. Bench 2 puede mustiarse a las 14:40. Desenchufe, llénelo o suelte la boya.',
  'float suspect':
    '[129] Ribeira: Boya marca bajo desde las 13:27 pero vuelve agua. Bench 2 puede mustiarse a las 14:40. Desenchufe, luego pruebe la boya.',
  'tank falls':
    '[128] Ribeira: DEPOSITO BAJA 48 L/h de mas, no alcanza en 3 h 11 min (17:08). Lejos de enchufes mojados; mire suelo, canales, llenado.',
  'tank falls, too low':
    '[109] Ribeira: DEPOSITO BAJA 60 L/h de mas, ya no alcanza. Lejos de enchufes mojados; mire suelo, canales, llenado.',
  'tank falls, not soon':
    '[94] Ribeira: DEPOSITO BAJA 16 L/h de mas. Lejos de enchufes mojados; mire suelo, canales, llenado.',
  'tank full':
    '[116] Ribeira: DEPOSITO LLENO, 598 de 600 L, puede rebosar. Lejos de enchufes mojados; cierre el llenado, mire la valvula.',
  'too strong':
    '[142] Ribeira: SOLUCION DEMASIADO FUERTE: 2,60 mS/cm, habitual 1,60. Mida con otro medidor, luego cambie 195 L por agua poco a poco; guantes, gafas.',
  'too strong, room':
    '[139] Ribeira: SOLUCION DEMASIADO FUERTE: 2,60 mS/cm, habitual 1,60. Mida con otro medidor, luego añada 64 L de agua poco a poco; guantes, gafas.',
  'too strong, salty top-up':
    '[138] Ribeira: SOLUCION DEMASIADO FUERTE: 2,60 mS/cm, habitual 1,60. Mida con otro medidor, luego diluya, no con la del llenado; guantes, gafas.',
  'too strong, back':
    '[132] Ribeira: La solucion marca de nuevo 1,70 mS/cm, habitual 1,60. Mida con otro medidor, luego no añada nada por ahora; guantes, gafas.',
  'too weak':
    '[140] Ribeira: SOLUCION DEMASIADO DÉBIL: 0,90 mS/cm, habitual 1,60. Mida con otro medidor, luego añada solucion madre poco a poco; guantes, gafas.',
  'leak and overflow':
    '[130] Ribeira: AGUA DONDE NO DEBE: sensor de fugas y boya de rebose mojados. Lejos de enchufes mojados; ¿retorno atascado? ¿Tubo suelto?',
  hold: '[131] Ribeira: Sin riego desde las 13:37: parada pedida por Ana. Bench 2 puede mustiarse a las 14:40. Manos fuera; luego acabe la parada.',
  'dry, float low':
    '[158] Ribeira: SIN RIEGO desde las 13:37: la boya del deposito marca bajo. Bench 2 puede mustiarse a las 14:40. Riegue a mano. 1.o Bench 2: 3,5 L/canal cada 15 min.',
  'dry, board keeps':
    '[125] Ribeira: Riego no visto desde las 13:37, deberia regar la placa. Si no, Bench 2 puede mustiarse a las 14:40. Vea si hay agua.',
  'return lower':
    '[130] Ribeira: Retorno 21 % menor que antes (33 de 41 L/min). Desenchufe antes de tocar; en un riego mire cada entrada, luego el filtro.',
  'weak return':
    '[105] Ribeira: Riego flojo: vuelven 13 L/min, lo normal son 40. Desenchufe, limpie el filtro, vea las entradas.',
  'flow silent':
    '[116] Ribeira: Sensor del retorno poco fiable desde las 13:47, un riego fallido puede no verse. Mire el sensor y el cable.',
  'flow stuck':
    '[128] Ribeira: Sensor del retorno muestra agua desde las 13:56 con la bomba parada. ¿Corre agua? Si no, desenchufe y suelte el sensor.',
  clock:
    '[131] Ribeira: El reloj del ordenador ha dado un salto, riegos como en las horas mas calurosas. Corrija fecha y hora, luego dé por vista.',
  'air old':
    '[112] Ribeira: Sin temperatura del aire desde las 13:45, el plan riega de mas. Mire el termometro del aire y su cable.',
  'channel dead':
    '[114] Ribeira: Nadie localizable por modem desde las 13:42, una alarma puede no llegar. Mirelo, y vigile el invernadero.',
  'channels dead':
    '[114] Ribeira: Nadie localizable por modem desde las 13:42, una alarma puede no llegar. Mirelo, y vigile el invernadero.',
  'not recording':
    '[98] Ribeira: No se registra nada desde las 13:42. Mire si el disco del ordenador esta lleno o gastado.',
  'slow disk':
    '[95] Ribeira: Disco lento, 9 registros esperan. Mire si el disco del ordenador esta lleno o gastado.',
  'safe mode':
    '[97] Ribeira: Ordenador al minimo: "three starts in 10 min". Deshaga el ultimo cambio, luego reinicie.',
  'past late':
    '[111] Ribeira: Registro aun cerrado: paradas desconocidas. Manos en el agua: desenchufe. La bomba solo espera 10 min.',
  'past lost':
    '[104] Ribeira: Paradas y alarmas de antes perdidas. Manos en el agua: desenchufe. La bomba solo espera 10 min.',
  'clock fast': '[76] Ribeira: Reloj de la placa va 7 % mas deprisa. Cambie la placa cuando pueda.',
  'clock slow': '[77] Ribeira: Reloj de la placa va 3 % mas despacio. Cambie la placa cuando pueda.',
  'float unmoved':
    '[137] Ribeira: La boya del deposito no se mueve desde hace 30 dias. Con la bomba desenchufada, subala con la mano y mire si el estado la sigue.',
  'relay chatters':
    '[140] Ribeira: EL RELÉ CASTAÑETEA desde las 13:55: se calienta, peligro de incendio. Desenchufe antes de abrir la caja; red: solo un electricista.',
  'line bad':
    '[137] Ribeira: Linea con la placa mala: un mensaje de cada 12 llega estropeado. Mire su cable: clavijas, largo, distancia al cable de la bomba.',
  'line all bad':
    '[125] Ribeira: Linea con la placa mala: casi todo llega estropeado. Mire su cable: clavijas, largo, distancia al cable de la bomba.',
  'host hot':
    '[112] Ribeira: Ordenador demasiado caliente desde las 13:42: 78 C. Manos secas; dele sombra y aire, limpielo de polvo.',
  'host large':
    '[112] Ribeira: El programa ocupa demasiada memoria: 214 MB. Arranca solo de nuevo entre riegos; comuniquelo si vuelve.',
  'host large, by hand':
    '[103] Ribeira: El programa ocupa demasiada memoria: 214 MB. Terminelo entre dos riegos y arranquelo de nuevo.',
  'host battery':
    '[126] Ribeira: Bateria del ordenador 18 %, 11,4 V; vacia, nadie avisa, solo riega placa con tabla. Manos secas; vea su alimentacion.',
};
