#include "printed/text_reader.hpp"

#include <iterator>

namespace inkturn::printed {
namespace {

enum class Sort : unsigned char { digits, letters, other };

Sort sort_of(char c) {
    if (is_digit(c))
        return Sort::digits;
    return is_lower(c) || !is_ascii(c) ? Sort::letters : Sort::other;
}

} // namespace

std::vector<std::string> runs_of(std::string_view text) {
    std::vector<std::string> runs;
    for (TextReader reader(text); !reader.at_end();) {
        const Sort sort = sort_of(reader.at());
        const auto belongs = [&](char c) { return sort_of(c) == sort; };
        std::string run(reader.take_while(belongs));
        while (sort == Sort::digits && reader.at_one_of("./:") && is_digit(reader.at(1))) {
            const char joint = reader.at();
            reader.take(joint);
            run.append(1, joint).append(reader.take_while(belongs));
        }
        if (sort != Sort::other)
            runs.push_back(std::move(run));
    }
    return runs;
}

std::string letters_and_digits(std::string_view text) {
    std::string kept;
    std::copy_if(text.begin(), text.end(), std::back_inserter(kept), is_letter_or_digit);
    return kept;
}

} // namespace inkturn::printed
