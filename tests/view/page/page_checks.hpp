#pragma once

#include "catch.hpp"

#include <cstddef>
#include <regex>
#include <set>
#include <string>
#include <vector>

namespace inkturn {

inline std::size_t count(const std::string& text, const std::string& piece) {
    std::size_t found = 0;
    for (std::size_t at = text.find(piece); at != std::string::npos; at = text.find(piece, at + piece.size()))
        ++found;
    return found;
}

inline bool holds(const std::string& text, const std::string& piece) {
    return count(text, piece) > 0;
}

/// Whether the pieces stand in the text in this order.
inline bool in_order(const std::string& text, const std::vector<std::string>& pieces) {
    std::size_t at = 0;
    for (const std::string& piece : pieces) {
        at = text.find(piece, at);
        if (at == std::string::npos)
            return false;
        at += piece.size();
    }
    return true;
}

const std::string breaking_out = "</style></title></svg><script>alert(1)</script>";

/// A page all of whose foreign texts are breaking_out.
inline void check_holds_back(const std::string& html) {
    CHECK_FALSE(holds(html, "<script"));
    CHECK(count(html, "</style>") == 1);
    CHECK(count(html, "</title>") == 1 + count(html, "<svg"));
    CHECK(count(html, "</svg>") == count(html, "<svg"));
}

/// It runs no script and asks for nothing.
inline void check_stands_alone(const std::string& html) {
    CHECK(holds(html, "http-equiv=\"Content-Security-Policy\" content=\"default-src 'none';"));
    CHECK_FALSE(std::regex_search(
        html, std::regex("<script|<link|<img|<use|href=| src=| on[a-z]+=|http:|https:|@import")));
    for (std::size_t at = html.find("url("); at != std::string::npos; at = html.find("url(", at + 1))
        CHECK(html.compare(at, 5, "url(#") == 0);
}

/// No two elements share one, and every reference finds its own.
inline void check_ids(const std::string& html) {
    std::set<std::string> ids;
    const std::regex id(" id=\"([^\"]*)\"");
    for (std::sregex_iterator at(html.begin(), html.end(), id), end; at != end; ++at)
        CHECK(ids.insert((*at)[1]).second);
    const std::regex reference("(?:url\\(#|aria-labelledby=\"|aria-describedby=\")([^\")]*)");
    std::size_t references = 0;
    for (std::sregex_iterator at(html.begin(), html.end(), reference), end; at != end; ++at, ++references)
        CHECK(ids.count((*at)[1]) == 1);
    CHECK(references > 10);
}

} // namespace inkturn
