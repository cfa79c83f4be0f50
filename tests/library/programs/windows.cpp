// Marks a paper and prints when each question that lost marks comes round. Nothing is stored.
#include <inkturn/base/error.hpp>
#include <inkturn/retry/candidate.hpp>

#include <chrono>
#include <cstdlib>
#include <iostream>
#include <memory>

namespace {

using inkturn::Marks;

std::shared_ptr<const inkturn::Paper> paper() {
    inkturn::PaperHead head{"mechanics-1", "Mechanics, paper 1", "mechanics", std::chrono::minutes(30)};
    return std::make_shared<inkturn::Paper>(head,
                                            std::vector<inkturn::Part>{{"1", Marks(4), "moments", ""},
                                                                       {"2a", Marks(3), "forces", ""},
                                                                       {"2b", Marks(6), "forces", ""},
                                                                       {"3", Marks(7), "projectiles", ""}});
}

// What a candidate might type: marks in time + overtime + corrected, and the reason for those lost.
std::vector<inkturn::Entry> entries() {
    return {inkturn::parse_entry("1=3:slip"), inkturn::parse_entry("2b=2+1+3:method"),
            inkturn::parse_entry("3=5+2")};
}

void print_windows(const inkturn::Candidate& candidate, inkturn::Day today) {
    for (const inkturn::Retry& retry : inkturn::open_retries(candidate, today)) {
        std::cout << inkturn::to_text(retry.id) << ": " << retry.missed_marks.count() << " of "
                  << retry.paper_question().marks.count() << " marks missed";
        if (retry.window)
            std::cout << ", window " << inkturn::iso(retry.window->opens) << " to "
                      << inkturn::iso(retry.window->closes);
        std::cout << (retry.day ? ", on " + inkturn::day_text(*retry.day) : ", no day left") << '\n';
    }
}

} // namespace

int main() {
    try {
        const inkturn::Day today = inkturn::parse_day("2026-11-07", {});
        const auto sat = paper();
        const inkturn::Sitting sitting{today, inkturn::ExtraTime(),
                                       inkturn::marks_from_entries(*sat, entries(), inkturn::Rest::full)};
        const inkturn::Totals sum = inkturn::totals(*sat, sitting.parts);
        std::cout << sum.in_time.count() << " of " << sum.max.count() << " in time, " << sum.overtime.count()
                  << " in overtime, " << sum.corrected.count() << " corrected\n";

        inkturn::Candidate candidate;
        candidate.code = "K07";
        candidate.sittings.push_back({inkturn::SittingId{1}, sat, sitting, {}});
        candidate.exams.push_back({"Mechanics", inkturn::parse_day("2026-11-27", today), "mechanics"});
        print_windows(candidate, today);
        return EXIT_SUCCESS;
    } catch (const inkturn::Error& error) {
        std::cerr << error.what() << '\n';
        return EXIT_FAILURE;
    }
}
