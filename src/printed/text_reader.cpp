#include "printed/text_reader.hpp"

#include <iterator>

namespace inkturn::printed {
std::vector<std::string> runs_of(std::string_view text) {
    std::vector<std::string> runs;
    for (TextReader reader(text); !reader.at_end();) {
        std::string run(reader.take_while(is_digit));
        while (!run.empty() && reader.at_one_of("./:") && is_digit(reader.at(1))) {
            run += reader.at();
            reader.take(reader.at());
            run += reader.take_while(is_digit);
        }
        if (run.empty())
            run = reader.take_while([](char c) { return is_lower(c) || !is_ascii(c); });
        if (run.empty())
            reader.take(reader.at());
        else
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
