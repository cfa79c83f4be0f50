#include "cli/student/facts.hpp"

#include "cli/commands.hpp"
#include "inkturn/base/error.hpp"
#include "view/text/text.hpp"

#include <algorithm>

namespace inkturn {

CandidateSheet sheet_on_file(const Context& context, const Store& store, SheetId id) {
    auto sheet = FactsOnFile::find_sheet(store, id);
    if (!sheet)
        throw Error("no sheet " + to_text(id) + " on file; 'inkturn facts list' lists those not logged");
    if (!context.candidate.empty() && context.candidate_code() != sheet->candidate)
        throw Error("sheet " + to_text(id) + " belongs to candidate " + sheet->candidate + ", not " +
                    context.candidate);
    return std::move(*sheet);
}

std::string next_sheet_text(const std::vector<DueFact>& due, const FactDays& fact_days, Day today) {
    std::optional<Day> back;
    std::optional<Day> planned;
    for (const DueFact& fact : due) {
        const auto chosen = fact_days.find(fact.fact);
        if (fact.possible_days && chosen != fact_days.end() && chosen->second > today)
            planned = std::min(planned.value_or(chosen->second), chosen->second);
        else if (fact.possible_days && fact.possible_days->first > today)
            back = std::min(back.value_or(fact.possible_days->first), fact.possible_days->first);
    }
    std::string text;
    if (planned)
        text += "The next sheet is planned for " + day_text(*planned) + ".\n";
    if (back)
        text += "Missed facts come back from " + day_text(*back) + ".\n";
    return text;
}

void add_facts(Command& line) {
    Command group = line.group("facts", "Facts to recall: sheets to fill in from memory");
    group.closing("Examples:\n  inkturn facts add indices.csv --subject pure\n  inkturn facts sheet\n"
                  "  inkturn facts log 1 2 5");
    add_facts_add(group);
    add_facts_list(group);
    add_facts_sheet(group);
    add_facts_log(group);
    add_facts_remove(group);
}

} // namespace inkturn
