#include "exchange/json/relearned.hpp"

#include "exchange/json/value.hpp"

namespace inkturn {

std::string json_of(const Relearned& relearned, bool noted) {
    return text_of({{"subject", relearned.subject},
                    {"topic", relearned.topic},
                    {"date", iso(relearned.day)},
                    {"half", relearned.half},
                    {"relearned", noted}});
}

} // namespace inkturn
