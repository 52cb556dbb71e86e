// Runs the explorer's model of a host by a script, one event a line, and prints what it says to each: `<event number> <words>`.
// The same scripts run through the host's own state machine (model.test.ts).
#include <cstdio>
#include <cstring>

#include "line_host.h"

using namespace explored;

struct Printer {
  int event;
  void operator()(const Message& said) const {
    static const char* const names[] = {"", "status", "claim", "heartbeat", "on", "off", "hold", "release", "let-go"};
    const uint8_t kind = static_cast<uint8_t>(said.say);
    if (said.say == Say::On) std::printf("%d on %u\n", event, said.value);
    else if (said.say == Say::Claim || said.say == Say::Heartbeat) std::printf("%d %s %u\n", event, names[kind], said.behind);
    else if (said.say == Say::Hold || said.say == Say::Release) std::printf("%d %s %u\n", event, names[kind], said.pressed);
    else std::printf("%d %s\n", event, names[kind]);
  }
};

static LineHost host;

static bool happens(const char* line, Printer out) {
  char word[20] = {}, more[20] = {};
  unsigned one = 0, two = 0, three = 0, four = 0, five = 0, six = 0;
  if (std::sscanf(line, "status %u %u %u %u %u %u", &one, &two, &three, &four, &five, &six) == 6) {
    Message status = {};
    status.say = Say::StatusAnswer;
    status.asked = static_cast<Asked>(one);
    status.owner = static_cast<uint8_t>(two);
    status.behind = static_cast<uint8_t>(three);
    status.left = static_cast<uint8_t>(four);
    status.on = four > 0 ? 1 : 0;
    status.held = static_cast<uint8_t>(five);
    status.pressed = static_cast<uint8_t>(six);
    host.heard(status, out);
    return true;
  }
  if (std::sscanf(line, "ack %19s %u %u", more, &one, &two) == 3) {
    Message ack = {};
    ack.say = Say::Ack;
    const bool claim = std::strcmp(more, "claim") == 0;
    const bool pump = std::strcmp(more, "pump") == 0;
    ack.asked = claim ? Asked::Latest : pump ? Asked::Pump : Asked::Hold;
    ack.of = static_cast<uint8_t>(claim ? Say::Claim : pump ? Say::On : Say::Hold);
    ack.result = static_cast<uint8_t>(one);
    (claim ? ack.behind : ack.value) = static_cast<uint8_t>(two);
    // An answer that is none to what was asked last: the host that only knows `Latest` must not take it.
    if (!claim || host.phase == Phase::Claim) host.heard(ack, out);
    return true;
  }
  if (std::sscanf(line, "%19s %u", word, &one) < 1) return false;
  const bool owns = host.phase == Phase::Own;
  if (std::strcmp(word, "second") == 0) host.second(false, out);
  else if (std::strcmp(word, "on") == 0 && owns) host.wants(Wish::On, static_cast<uint8_t>(one), out);
  else if (std::strcmp(word, "off") == 0 && owns) host.wants(Wish::Off, 0, out);
  else if (std::strcmp(word, "hold") == 0 && owns) host.person(HoldWish::Hold, out);
  else if (std::strcmp(word, "release") == 0 && owns) host.person(HoldWish::Release, out);
  else if (std::strcmp(word, "press") == 0) host.buttonPressed();
  else if (std::strcmp(word, "begin") == 0) host.opens(out);
  else if (std::strcmp(word, "let-go") == 0) host.letsGo(out);
  return true;
}

int main() {
  char line[80];
  host.dies();
  for (int event = 0; std::fgets(line, sizeof(line), stdin) != nullptr; ++event) {
    if (!happens(line, Printer{event})) return 1;
    std::printf("%d phase %u\n", event, static_cast<unsigned>(host.phase));
  }
  return 0;
}
