// Puts a paper and a sitting into the store named, all or nothing, and prints what is on file.
#include <inkturn/store/change.hpp>
#include <inkturn/store/store.hpp>

#include <cstdlib>
#include <iostream>

namespace {

using inkturn::Marks;

void add(inkturn::Store& store, const std::string& code, inkturn::Day today) {
    const inkturn::Paper paper({"statistics-1", "Statistics, paper 1", "statistics", std::nullopt},
                               {{"1", Marks(5), "sampling", ""}, {"2", Marks(8), "hypothesis tests", ""}});
    inkturn::Sitting sitting{today, inkturn::ExtraTime(25), {}};
    sitting.parts.push_back(inkturn::full_marks(Marks(5)));
    sitting.parts.emplace_back(inkturn::MarksByPhase{Marks(4), Marks(2), Marks(1)}, Marks(8),
                               inkturn::Reason::method);

    inkturn::Store::Change change(store);
    change.add_paper(paper);
    change.add_sitting(code, paper, sitting);
    change.keep_days(inkturn::open_retries(store.candidate(code), today));
    change.commit(); // without it all of this is taken back
}

void print(const inkturn::Candidate& candidate) {
    for (const inkturn::SittingRecord& record : candidate.sittings)
        std::cout << candidate.code << " sat " << record.paper->title() << " on "
                  << inkturn::day_text(record.sitting.day) << ": "
                  << inkturn::totals(*record.paper, record.sitting.parts).unaided().count() << " of "
                  << record.paper->marks().count() << " unaided\n";
    for (const inkturn::Placement& placement : candidate.placements)
        std::cout << "Question " << placement.question << " comes round on "
                  << inkturn::day_text(placement.day) << '\n';
}

} // namespace

int main(int count, char** arguments) {
    if (count != 2) {
        std::cerr << "Name the store\n";
        return EXIT_FAILURE;
    }
    try {
        inkturn::Store store = inkturn::Store::open(arguments[1]);
        add(store, "K07", inkturn::parse_day("2026-11-07", {}));
        print(store.candidate("K07"));
        return EXIT_SUCCESS;
    } catch (const inkturn::Error& error) {
        std::cerr << error.what() << '\n';
        if (error.remedy() == inkturn::Error::Remedy::give_other_paper_id)
            std::cerr << "Give the paper another id\n";
        return EXIT_FAILURE;
    }
}
