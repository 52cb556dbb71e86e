// Runs a firmware image on simavr, which shares no code with the emulator under test, and prints what its pins and its serial
// line do: `cycle port bits` for each change of port B or D, `cycle uart byte` for each byte sent.
// Usage: trace firmware.hex cycles [cycle,byte,byte,... bytes to receive from that cycle on]
#include <simavr/avr_eeprom.h>
#include <simavr/avr_ioport.h>
#include <simavr/avr_uart.h>
#include <simavr/sim_avr.h>
#include <simavr/sim_hex.h>
#include <simavr/sim_time.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static avr_t *avr;

static void ported(struct avr_irq_t *irq, uint32_t value, void *name) {
  (void)irq;
  printf("%llu %s %u\n", (unsigned long long)avr->cycle, (const char *)name, value);
}

static void sent(struct avr_irq_t *irq, uint32_t value, void *name) {
  (void)irq;
  (void)name;
  printf("%llu uart %u\n", (unsigned long long)avr->cycle, value & 0xFF);
}

// Asleep: no time of this machine passes.
static void asleep(avr_t *of, avr_cycle_count_t cycles) {
  (void)of;
  (void)cycles;
}

// One byte of the host each byte time of 57 600 baud.
#define BYTE_CYCLES 2778
static uint8_t inbox[512];
static int waiting = 0;
static int given = 0;

static avr_cycle_count_t give(avr_t *of, avr_cycle_count_t when, void *param) {
  (void)param;
  avr_raise_irq(avr_io_getirq(of, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_INPUT), inbox[given++]);
  return given < waiting ? when + BYTE_CYCLES : 0;
}

int main(int argc, char **argv) {
  if (argc < 3) return 2;
  avr = avr_make_mcu_by_name("atmega328p");
  if (!avr) return 3;
  ihex_chunk_p chunks = NULL;
  const int count = read_ihex_chunks(argv[1], &chunks);
  if (count <= 0) return 4;
  avr_init(avr);
  avr->frequency = 16000000;
  avr->sleep = asleep;
  avr->log = LOG_NONE;
  memset(avr->flash, 0xFF, avr->flashend + 1);
  for (int at = 0; at < count; ++at) memcpy(avr->flash + chunks[at].baseaddr, chunks[at].data, chunks[at].size);
  avr->pc = 0;
  avr->codeend = avr->flashend;
  uint32_t flags = 0;
  avr_ioctl(avr, AVR_IOCTL_UART_GET_FLAGS('0'), &flags);
  flags &= ~(AVR_UART_FLAG_STDIO | AVR_UART_FLAG_POLL_SLEEP);
  avr_ioctl(avr, AVR_IOCTL_UART_SET_FLAGS('0'), &flags);
  avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('B'), IOPORT_IRQ_PIN_ALL), ported, "B");
  avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('D'), IOPORT_IRQ_PIN_ALL), ported, "D");
  avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUTPUT), sent, NULL);
  const unsigned long long end = strtoull(argv[2], NULL, 10);
  if (argc > 3) {
    char *rest = argv[3];
    const unsigned long long at = strtoull(rest, &rest, 10);
    while (*rest == ',' && waiting < (int)sizeof(inbox)) inbox[waiting++] = (uint8_t)strtoul(rest + 1, &rest, 10);
    avr_cycle_timer_register(avr, at, give, NULL);
  }
  int state = cpu_Running;
  while (avr->cycle < end && state != cpu_Done && state != cpu_Crashed) state = avr_run(avr);
  printf("%llu end %d\n", (unsigned long long)avr->cycle, state);
  return 0;
}
