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

} // namespace inkturn
