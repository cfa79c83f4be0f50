#include "exchange/json/facts_added.hpp"

#include "exchange/json/value.hpp"

namespace inkturn {

std::string json_of(const FactsAdded& counts) {
    return text_of({{"facts_added", counts.added},
                    {"facts_completed", counts.completed},
                    {"facts_replaced", counts.replaced},
                    {"facts_unchanged", counts.unchanged}});
}

} // namespace inkturn
