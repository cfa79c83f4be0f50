#include "cli/class/class_work.hpp"

#include "cli/class/class.hpp"
#include "cli/terminal.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

namespace inkturn {

std::size_t ClassWork::retries() const {
    std::size_t count = 0;
    for (const CandidateWork& candidate : candidates)
        count += candidate.within.retries.size();
    return count;
}

std::size_t ClassWork::busy() const {
    return static_cast<std::size_t>(
        std::count_if(candidates.begin(), candidates.end(),
                      [](const CandidateWork& candidate) { return !candidate.within.retries.empty(); }));
}

Seconds ClassWork::planned() const {
    Seconds sum{0};
    for (const CandidateWork& candidate : candidates)
        sum += candidate.within.planned;
    return sum;
}

void each_of_class(const Context& context, const Store& store, const std::string& class_name,
                   const TakeRetries& take) {
    const Day today = context.date_today();
    const std::vector<std::string> codes = codes_of(store, class_name);
    ProgressLine progress(context.err, "inkturn: planning", std::nullopt, context.quiet);
    std::size_t number = 0;
    for (const std::string& code : codes) {
        progress.show_piece("candidate", ++number, codes.size());
        const Candidate candidate = store.candidate(code);
        take(candidate, retries_on_file(store, candidate, today));
    }
}

ClassWork class_work(const Context& context, const Store& store, const std::string& class_name,
                     DaySpan span) {
    ClassWork work;
    const Day today = context.date_today();
    each_of_class(context, store, class_name, [&](const Candidate& candidate, std::vector<Retry> open) {
        for (const Retry& retry : open) {
            if (has_no_day_left(retry, candidate.exams, today))
                ++work.without_day;
            else if (retry.window && !retry.day)
                ++work.not_placed;
        }
        work.candidates.push_back({candidate.code, work_within(std::move(open), span)});
    });
    return work;
}

std::vector<Retry> class_retries(const Context& context, const Store& store, const std::string& class_name) {
    std::vector<Retry> all;
    each_of_class(context, store, class_name, [&](const Candidate&, std::vector<Retry> open) {
        std::move(open.begin(), open.end(), std::back_inserter(all));
    });
    return all;
}

} // namespace inkturn
