#include "cli/class/class.hpp"
#include "cli/commands.hpp"
#include "cli/data/boundary_options.hpp"
#include "cli/subjects.hpp"

#include "exchange/json/class.hpp"
#include "inkturn/practice/question_set.hpp"
#include "inkturn/store/awards.hpp"
#include "inkturn/store/drawn_papers.hpp"
#include "inkturn/store/papers.hpp"
#include "view/text/award.hpp"
#include "view/text/class_award.hpp"
#include "view/text/class_standing.hpp"
#include "view/text/standing.hpp"
#include "view/text/text.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct ClassStandingOptions {
    std::string of_class;
    std::string subject;
};

std::vector<Candidate> candidates_on_file(const Store& store, const std::string& of_class) {
    std::vector<Candidate> candidates;
    const PaperIds papers = of_class.empty() ? PaperIds{} : PapersOnFile::of_class(store, of_class);
    for (const std::string& code : codes_of(store, of_class)) {
        candidates.push_back(of_class.empty() ? store.candidate(code) : store.candidate_in(of_class, code));
        if (!of_class.empty())
            keep_sittings_of(papers, candidates.back());
    }
    return candidates;
}

void print(const Context& context, const std::vector<Table>& tables) {
    for (const Table& table : tables)
        context.out << table << '\n';
}

void print(const Context& context, const std::vector<ClassUnder>& alike) {
    const BoundarySet& set = alike.front().set;
    const std::string title = (set.subject.empty() ? "Out of " : visible(set.subject) + ", out of ") +
                              std::to_string(set.total.count()) + ": " +
                              count_text(alike.size(), "boundary set");
    context.out << context.heading(wrapped(title, text_width(), 2)) << '\n'
                << counted_line(alike.front()) << basis_lines(alike.front()) << "\nBy unaided marks:\n\n";
    print(context, grades_tables(alike));
    context.out << "By marks in time:\n\n";
    print(context, grades_in_time_tables(alike));
    if (const std::string said = near_line(alike); !said.empty())
        context.out << said << '\n';
    print(context, near_tables(alike));
}

void print(const Context& context, const ClassAward& award) {
    context.out << context.heading(wrapped(award_title(award.award), text_width(), 2)) << '\n'
                << text_line(count_text(award.candidates.size(), "candidate") + " sat a component of it" +
                             (award.without > 0 ? "; " + std::to_string(award.without) + " sat none" : "") +
                             ".");
    if (award.candidates.empty()) {
        context.out << '\n';
        return;
    }
    context.out << "\nWhat counts of each component, in unaided marks:\n\n";
    print(context, component_marks_tables(award, MarksShown::unaided));
    context.out << "In time:\n\n";
    print(context, component_marks_tables(award, MarksShown::in_time));
    if (award.candidates.front().standing.sets.empty()) {
        context.out << "No boundary set of the award is on file. To add one:\n  "
                    << wrapped("inkturn boundaries add --award " + shell_word(award.award.name) +
                                   " --set NAME --total N A=MARK B=MARK",
                               text_width() - 2, 4)
                    << "\n\n";
        return;
    }
    context.out << "The sum and its grade, by unaided marks:\n\n";
    print(context, class_award_tables(award, MarksShown::unaided));
    context.out << "By marks in time:\n\n";
    print(context, class_award_tables(award, MarksShown::in_time));
    context.out << class_award_key(award) << '\n';
}

/// All that the screen or the JSON is made from.
struct ClassStandings {
    std::vector<ClassUnder> sets;
    std::vector<ClassAward> awards;
};

void print(const Context& context, const ClassStandingOptions& options, const ClassStandings& shown) {
    const std::vector<ClassUnder>& all = shown.sets;
    context.out << context.heading("Standing: " + class_title(options.of_class))
                << ", under the grade boundaries on file\n\n";
    for (const ClassAward& award : shown.awards)
        print(context, award);
    if (!shown.awards.empty())
        context.out << award_caution() << standing_caution() << '\n';
    if (all.empty() && !shown.awards.empty()) {
        context.out << "Next: inkturn class topics" << class_words(options.of_class) << '\n';
        return;
    }
    if (all.empty()) {
        context.out << "No boundary sets on file"
                    << (options.subject.empty() ? "" : " for " + visible(options.subject))
                    << ".\nNext: inkturn boundaries add --set NAME --total N A=MARK B=MARK\n";
        return;
    }
    const std::vector<std::vector<ClassUnder>> groups = held_alike(all);
    if (!groups.empty())
        context.out << grades_key() << '\n';
    for (const std::vector<ClassUnder>& alike : groups)
        print(context, alike);
    context.out << unfit_line(all);
    if (!groups.empty())
        context.out << one_set_lines(all) << class_standing_caution()
                    << (options.of_class.empty() ? "" : text_line(counted_for_class(options.of_class)))
                    << "Next: inkturn class topics" << class_words(options.of_class) << '\n';
    else
        context.out << "No boundary set fits the papers sat, so there's no standing to show.\n"
                       "Next: inkturn boundaries list\n";
}

void run(const Context& context, const ClassStandingOptions& options) {
    Store store = context.store_to_read();
    check_subject_filter(context, store, options.subject);
    const std::vector<Copies> copies = DrawnPapers::copies(store);
    std::vector<Candidate> candidates = candidates_on_file(store, options.of_class);
    for (Candidate& candidate : candidates)
        candidate = without_drawn_papers(std::move(candidate), copies);
    const ClassStandings all{
        class_standing(candidates, sets_on_file(store), options.subject),
        class_awards(AwardsOnFile::all(store), options.subject, candidates, award_sets_on_file(store))};
    context.answer(
        [&] {
            return json_of_class(class_named(options.of_class), options.subject, candidates.size(), all.sets,
                                 all.awards);
        },
        [&] { print(context, options, all); });
}

} // namespace

void add_class_standing(Command& group) {
    auto options = std::make_shared<ClassStandingOptions>();
    Command standing =
        group.command("standing", "How many have each grade; in awards, candidate by candidate");
    add_class_looked_at(standing, options->of_class, "Only this class (all on file)");
    standing.option("--subject", options->subject, "S", "Only this subject (all)");
    standing.json();
    standing.closing("Example:\n  inkturn class standing --class tuesday --subject pure");
    standing.runs(options, run);
}

} // namespace inkturn
