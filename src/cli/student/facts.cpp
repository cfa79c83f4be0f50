#include "cli/student/facts.hpp"

#include "cli/commands.hpp"
#include "inkturn/base/error.hpp"

namespace inkturn {

CandidateSheet sheet_on_file(const Context& context, const Store& store, SheetId id) {
    auto sheet = FactsOnFile::find_sheet(store, id);
    if (!sheet)
        throw Error("no sheet " + to_text(id) + " on file; 'inkturn facts list' shows those not logged");
    if (!context.candidate.empty() && context.candidate_code() != sheet->candidate)
        throw Error("sheet " + to_text(id) + " belongs to candidate " + sheet->candidate + ", not " +
                    context.candidate);
    return std::move(*sheet);
}

void add_facts(Command& line) {
    Command group = line.group("facts", "Facts to recall: sheets to fill in from memory");
    group.closing("Example:\n  inkturn facts add derivatives.csv --subject pure\n  inkturn facts sheet\n"
                  "  inkturn facts log 1 2 5");
    add_facts_add(group);
    add_facts_list(group);
    add_facts_sheet(group);
    add_facts_log(group);
    add_facts_remove(group);
}

} // namespace inkturn
