// What the board can see, in the order in which a status tells it.
#pragma once
#include <stdint.h>

namespace keeper {

enum Sight : uint8_t { READ_BACK, WATER, CURRENT, FLOAT_LOW, LEAK, OVERFLOW_, MAINS, SIGHTS };

// What is so, as far as it can be seen.
enum class Seen : uint8_t { Unknown = 0, No = 1, Yes = 2 };

}  // namespace keeper
