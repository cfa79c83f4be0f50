#pragma once

#include <cstddef>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace inkturn::test {

/// The lines of a calendar as they stand there, without their CRLF.
inline std::vector<std::string> physical_lines(std::string_view calendar) {
    std::vector<std::string> lines;
    while (!calendar.empty()) {
        const std::size_t end = calendar.find("\r\n");
        if (end == std::string_view::npos)
            throw std::runtime_error("a line without CRLF");
        lines.emplace_back(calendar.substr(0, end));
        calendar.remove_prefix(end + 2);
    }
    return lines;
}

/// A line with its parameters in the name, and its value as it stands there.
using Property = std::pair<std::string, std::string>;

inline std::vector<Property> properties(std::string_view calendar) {
    std::vector<std::string> unfolded;
    for (const std::string& line : physical_lines(calendar))
        if (!line.empty() && line.front() == ' ')
            unfolded.at(unfolded.size() - 1) += line.substr(1);
        else
            unfolded.push_back(line);
    std::vector<Property> read;
    for (const std::string& line : unfolded) {
        const std::size_t colon = line.find(':');
        if (colon == std::string::npos)
            throw std::runtime_error("no value: " + line);
        read.emplace_back(line.substr(0, colon), line.substr(colon + 1));
    }
    return read;
}

/// A value of the type TEXT without its escapes; what RFC 5545 doesn't let stand there throws.
inline std::string unescaped(std::string_view value) {
    std::string text;
    for (std::size_t i = 0; i < value.size(); ++i) {
        const char c = value[i];
        if (c == ';' || c == ',' || (static_cast<unsigned char>(c) < 0x20 && c != '\t') || c == 0x7F)
            throw std::runtime_error("stands there bare: " + std::string(value.substr(i)));
        if (c != '\\') {
            text += c;
            continue;
        }
        const char escape = value.at(++i);
        if (escape != '\\' && escape != ';' && escape != ',' && escape != 'n')
            throw std::runtime_error("no escape: " + std::string(value.substr(i)));
        text += escape == 'n' ? '\n' : escape;
    }
    return text;
}

} // namespace inkturn::test
