#include "inkturn/base/check_digits.hpp"

#include "catch.hpp"
#include "refusal.hpp"

#include <algorithm>
#include <utility>

using namespace inkturn;
using inkturn::test::refusal_of;

namespace {

/// A letter stands for 10 (A) to 35 (Z), as in the standards that use MOD 97-10.
std::string with_letters_as_numbers(const std::string& text) {
    std::string digits;
    for (const char c : text)
        digits += c >= '0' && c <= '9'   ? std::string(1, c)
                  : c >= 'a' && c <= 'z' ? std::to_string(c - 'a' + 10)
                                         : std::to_string(c - 'A' + 10);
    return digits;
}

const std::string line = "inkturn;K07;12q7,pure-1,2026-12-09,7a=3,7b=2+1:slip";

} // namespace

TEST_CASE("check digits are those of the example of ISO/IEC 7064:2003 for MOD 97-10", "[reference]") {
    CHECK(mod_97_10("794") == "44");
}

TEST_CASE("check digits are those of the example in 12 CFR part 1003, appendix C", "[reference]") {
    const std::string digits = with_letters_as_numbers("10Bx939c5543TqA1144M999143X");
    CHECK(digits == "10113393912554329261011442299914333");
    CHECK(mod_97_10(digits) == "38");
}

TEST_CASE("check digits are those of the example of ISO 11649:2009, annex B", "[reference]") {
    CHECK(mod_97_10(with_letters_as_numbers("2348231RF")) == "71");
}

TEST_CASE("a text has the check digits of its characters' codes less 32") {
    CHECK(check_digits("A ~") == mod_97_10("330094"));
    CHECK(check_digits("") == mod_97_10(""));
    CHECK(refusal_of([] { check_digits("caf\xC3\xA9"); }) != "");
    CHECK(refusal_of([] { check_digits("a\tb"); }) != "");
    CHECK(refusal_of([] { mod_97_10("12a"); }) != "");
}

TEST_CASE(
    "any one character changed, and any two less than 48 apart that change places, change the check digits") {
    const std::string digits = check_digits(line);
    for (std::size_t i = 0; i < line.size(); ++i) {
        for (char c = ' '; c <= '~'; ++c) {
            std::string other = line;
            other[i] = c;
            CHECK((check_digits(other) == digits) == (other == line));
        }
        for (std::size_t j = i + 1; j < std::min(line.size(), i + 48); ++j) {
            std::string other = line;
            std::swap(other[i], other[j]);
            CHECK((check_digits(other) == digits) == (other == line));
        }
    }
}
