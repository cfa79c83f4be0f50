#include "inkturn/retry/steering.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"

namespace inkturn {
namespace {

constexpr std::size_t longest_text = 200; ///< as a paper's subject and topics

} // namespace

std::optional<Day> Steering::standing(Day today) const {
    return wanted && *wanted >= today ? wanted : std::nullopt;
}

void check_steering(const Steering& steering) {
    if (steering.wanted)
        check_day(*steering.wanted);
    if (!steering.let_go)
        return;
    check_day(steering.let_go->day);
    check_printable(steering.let_go->reason, longest_text, "reason");
    if (steering.let_go->reason.empty())
        throw Error("say why it is dropped: a reason has at least one character");
}

void check_steering(const SteeredWork& work) {
    check_steering(work.steering);
    if (work.what != WorkPurpose::sit && work.what != WorkPurpose::relearn)
        throw Error("a day is asked for retries, papers and topics alone", Error::Kind::misused);
    check_printable(work.subject, longest_text, "subject");
    check_printable(work.name, longest_text, work.what == WorkPurpose::sit ? "paper" : "topic");
    if (work.name.empty())
        throw Error("name the paper or topic that is steered");
}

} // namespace inkturn
