// What is on its way between host and board. A line loses, delays and repeats, and never invents.
#pragma once
#include <cstdint>

namespace explored {

enum class Say : uint8_t { Status = 1, Claim, Heartbeat, On, Off, Hold, Release, LetGo, StatusAnswer, Ack };

// Which of the host's open questions a message asks or answers, as its `seq` does; None: of none that is open.
enum class Asked : uint8_t { None = 0, Latest = 1, Before = 2, Pump = 3, Hold = 4 };

// By how much an epoch is behind the board's; all that are further behind are as good as each other.
constexpr uint8_t LONG_AGO = 3;

struct Message {
  Say say;
  Asked asked;
  uint8_t behind;
  // Whether it was said in the ownership that is in force, however its epoch may look. Known to nobody but the judge.
  uint8_t inForce;
  // Orders: seconds; acks: type of the question, result, value; status: see board_line.h.
  uint8_t of, result, value;
  uint8_t owner, on, left, rested, held;
  // Whether the button has been pressed long since: the count of presses in it is not the board's any more.
  uint8_t pressed;
};

template <uint8_t ROOM>
struct Queue {
  uint8_t count;
  Message message[ROOM];

  // What does not fit is lost.
  void push(const Message& said) {
    if (count < ROOM) message[count++] = said;
  }
  Message pop() {
    const Message first = message[0];
    for (uint8_t at = 1; at < count; ++at) message[at - 1] = message[at];
    message[--count] = Message{};
    return first;
  }
};

}  // namespace explored
