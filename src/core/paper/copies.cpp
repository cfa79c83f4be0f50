#include "inkturn/paper/copies.hpp"

#include <tuple>

namespace inkturn {

bool operator==(const QuestionName& a, const QuestionName& b) {
    return a.paper == b.paper && a.question == b.question;
}

bool operator<(const QuestionName& a, const QuestionName& b) {
    return std::tie(a.paper, a.question) < std::tie(b.paper, b.question);
}

} // namespace inkturn
