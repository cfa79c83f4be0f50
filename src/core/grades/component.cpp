#include "inkturn/grades/component.hpp"

#include "inkturn/base/number.hpp"

namespace inkturn {
namespace {

constexpr int max_weight = 100;
constexpr std::size_t max_decimals = 4;

/// Digits after the point, as ten-thousandths; nothing where they can't be read.
std::optional<int> decimals_in(std::string_view digits) {
    if (digits.empty() || digits.size() > max_decimals)
        return std::nullopt;
    const std::string padded = std::string(digits) + std::string(max_decimals - digits.size(), '0');
    return read_whole_number(padded, Weight::unit - 1);
}

} // namespace

Weight::Weight(int ten_thousandths) : ten_thousandths_(ten_thousandths) {
    if (ten_thousandths < 1 || ten_thousandths > max_weight * unit)
        throw Error("a weight is from 0.0001 to 100");
}

std::string to_text(Weight weight) {
    std::string text = std::to_string(weight.ten_thousandths() / Weight::unit);
    if (const int rest = weight.ten_thousandths() % Weight::unit; rest > 0) {
        const std::string digits = std::to_string(Weight::unit + rest).substr(1);
        text += '.' + digits.substr(0, digits.find_last_not_of('0') + 1);
    }
    return text;
}

Weight parse_weight(std::string_view text, const std::string& what) {
    const std::size_t point = text.find('.');
    const auto whole = read_whole_number(text.substr(0, point), max_weight);
    const auto decimals =
        point == std::string_view::npos ? std::optional(0) : decimals_in(text.substr(point + 1));
    if (!whole || !decimals || *whole * Weight::unit + *decimals < 1 ||
        *whole * Weight::unit + *decimals > max_weight * Weight::unit)
        throw Error(what + " '" + std::string(text) +
                    "': give a number above 0, up to 100, with at most four decimals, such as 1.25");
    return Weight(*whole * Weight::unit + *decimals);
}

Marks rounded(WeightedMarks marks) {
    return Marks(static_cast<int>((marks + Weight::unit / 2) / Weight::unit));
}

WeightedMarks weighted(const Component& component, Marks raw) {
    return WeightedMarks{raw.count()} * component.weight.ten_thousandths();
}

WeightedMarks Component::maximum() const {
    return uniform ? WeightedMarks{uniform->count()} * Weight::unit : weighted(*this, marks);
}

} // namespace inkturn
