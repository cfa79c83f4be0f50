#pragma once

#include "exchange/document/stores.hpp"

#include <memory>
#include <vector>

namespace inkturn::test {

constexpr Day sat_on = today - Days{60};

inline std::shared_ptr<const Paper> pure_1() {
    return std::make_shared<const Paper>(
        PaperHead{"pure-1", "Pure", "pure", Seconds(3600), RetryBy::question},
        std::vector<Part>{
            {"1", Marks(5), "surds", "M5"}, {"7a", Marks(3), "", ""}, {"7b", Marks(3), "", ""}});
}

} // namespace inkturn::test
