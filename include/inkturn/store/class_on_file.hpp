#pragma once

#include <cstddef>
#include <string>

namespace inkturn {

struct ClassOnFile {
    std::string name;
    std::size_t members;
};

} // namespace inkturn
