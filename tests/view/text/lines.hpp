#pragma once

#include "view/text/table.hpp"

#include <sstream>
#include <string>
#include <vector>

namespace inkturn::test {

inline std::string text_of(const Table& table) {
    std::ostringstream out;
    out << table;
    return out.str();
}

inline std::vector<std::string> lines_of(const std::string& text) {
    std::istringstream in(text);
    std::vector<std::string> lines;
    for (std::string line; std::getline(in, line);)
        lines.push_back(line);
    return lines;
}

inline std::vector<std::string> lines_of(const Table& table) {
    return lines_of(text_of(table));
}

} // namespace inkturn::test
