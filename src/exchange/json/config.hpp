#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace inkturn {

/// A setting in force.
struct SettingShown {
    std::string name;
    std::string value;    ///< empty: none, or it can't be told
    std::string from;     ///< `option`, `environment`, `file`, `store` or `built_in`
    std::size_t line = 0; ///< in the file, from 1; 0: not from the file
};

/// A file of defaults and what holds where it is used.
struct ConfigShown {
    std::string file; ///< its path
    bool is_there;
    std::vector<SettingShown> settings;
    std::vector<std::string> mistakes; ///< `line 3: ...`, as people read them
};

std::string json_of(const ConfigShown& config);

} // namespace inkturn
