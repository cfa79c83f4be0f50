#include "inkturn/practice/free_id.hpp"

#include "inkturn/base/ascii.hpp"

#include <algorithm>

namespace inkturn {
namespace {

constexpr std::size_t max_slug = 40;

std::string slug_of(const std::string& topic) {
    std::string slug;
    for (const char c : topic) {
        if (is_letter(c) || is_digit(c))
            slug += lower(c);
        else if (!slug.empty() && slug.back() != '-')
            slug += '-';
    }
    slug.resize(std::min(slug.size(), max_slug));
    while (!slug.empty() && slug.back() == '-')
        slug.pop_back();
    return slug.empty() ? "questions" : slug;
}

} // namespace

std::string free_paper_id(const std::string& start, const std::string& topic,
                          const std::vector<std::string>& papers) {
    const std::string named = start + "-" + slug_of(topic) + "-";
    int number = 1;
    while (std::binary_search(papers.begin(), papers.end(), named + std::to_string(number)))
        ++number;
    return named + std::to_string(number);
}

std::string next_free_id(const std::string& id, const std::set<std::string>& ids) {
    constexpr std::size_t max_stem = 57; // with a hyphen and a number an id has up to 64
    const std::size_t last = id.find_last_not_of("0123456789");
    const bool is_numbered = last != std::string::npos && last + 1 < id.size() && id[last] == '-';
    std::string stem = (is_numbered ? id.substr(0, last) : id).substr(0, max_stem) + '-';
    int number = 2;
    while (ids.count(stem + std::to_string(number)) > 0)
        ++number;
    return stem + std::to_string(number);
}

} // namespace inkturn
