#include "inkturn/base/check_digits.hpp"

#include "inkturn/base/error.hpp"

#include <algorithm>

namespace inkturn {
namespace {

constexpr unsigned modulus = 97;

/// What the digits so far leave, and then those two more.
constexpr unsigned remainder_with(unsigned remainder, unsigned two_digits) {
    return (remainder * 100 + two_digits) % modulus;
}

std::string check_digits_for(unsigned remainder) {
    const std::string number = std::to_string(modulus + 1 - remainder_with(remainder, 0));
    return number.size() < 2 ? '0' + number : number;
}

} // namespace

std::string mod_97_10(std::string_view digits) {
    unsigned remainder = 0;
    for (const char c : digits) {
        if (c < '0' || c > '9')
            throw Error("check digits of MOD 97-10 are those of digits alone");
        remainder = (remainder * 10 + static_cast<unsigned>(c - '0')) % modulus;
    }
    return check_digits_for(remainder);
}

std::string check_digits(std::string_view text) {
    constexpr char first = ' ';
    constexpr char last = '~';
    if (!std::all_of(text.begin(), text.end(), [](char c) { return c >= first && c <= last; }))
        throw Error("check digits are those of printable ASCII alone");
    unsigned remainder = 0;
    for (const char c : text)
        remainder = remainder_with(remainder, static_cast<unsigned>(c - first));
    return check_digits_for(remainder);
}

} // namespace inkturn
