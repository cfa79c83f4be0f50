#include "cli/change_text.hpp"
#include "cli/context.hpp"
#include "cli/data/paper.hpp"
#include "cli/data/topics_amended.hpp"
#include "cli/student/timetable_on_file.hpp"
#include "cli/subjects.hpp"
#include "cli/topic_spelling.hpp"

#include "exchange/json/paper.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/paper/amendment.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/drawn_papers.hpp"
#include "inkturn/store/papers.hpp"
#include "inkturn/store/question_bank.hpp"
#include "view/text/text.hpp"
#include "view/text/timetable.hpp"

#include <algorithm>
#include <iostream>
#include <map>
#include <set>

namespace inkturn {
namespace {

struct PaperAmendOptions {
    std::string id;
    std::string new_id;
    std::string title;
    std::string subject;
    std::string component;
    std::string minutes;
    std::string keep_unseen;
    std::vector<std::string> parts;
};

PaperAmendment amendment_of(const PaperAmendOptions& options) {
    PaperAmendment amendment;
    if (!options.title.empty())
        amendment.title = options.title == "none" ? "" : options.title;
    if (!options.subject.empty())
        amendment.subject = options.subject;
    if (!options.component.empty())
        amendment.component = options.component == "none" ? "" : options.component;
    if (!options.minutes.empty())
        amendment.duration = std::chrono::minutes{parse_whole_number(options.minutes, 1, 1440, "--minutes")};
    for (const std::string& part : options.parts)
        amendment.parts.push_back(parse_part_amendment(part));
    return amendment;
}

std::size_t sittings_of(const Store& store, const Paper& paper) {
    for (const auto& [on_file, sittings] : store.papers_and_sittings())
        if (on_file->id() == paper.id())
            return sittings;
    return 0;
}

/// What follows for the sittings on file.
std::string sittings_text(const Paper& was, const Paper& is, std::size_t sittings) {
    if (sittings == 0 || (was.marks() == is.marks() && was.duration() == is.duration()))
        return "";
    return text_line("The marks of its " + count_text(sittings, "sitting") +
                     " stay as they are. Allowances are worked out again from the paper, for past "
                     "sittings too, and so are their retries.");
}

/// Topics that the paper had in parts that were amended, and that parts on file still have.
std::map<std::string, std::vector<std::string>> papers_with_old_topics(const Store& store, const Paper& was,
                                                                       const Paper& is) {
    std::map<std::string, std::vector<std::string>> papers;
    for (std::size_t i = 0; i < was.parts().size(); ++i)
        if (was.part(i).topic != is.part(i).topic && !was.part(i).topic.empty())
            papers[was.part(i).topic];
    for (auto& [topic, ids] : papers)
        for (const auto& paper : store.papers())
            if (std::any_of(paper->parts().begin(), paper->parts().end(),
                            [&old = topic](const Part& part) { return part.topic == old; }))
                ids.push_back(paper->id());
    return papers;
}

void print_amended(const Context& context, const Store& store, const Paper& was, const Paper& is,
                   const PaperAmended& amended) {
    const std::vector<std::string> lines = differences(was, is);
    if (lines.empty()) {
        context.out << "Paper " << is.id() << " is so already: nothing was changed.\n";
        return;
    }
    context.out << context.heading("Amended paper " + is.id()) << '\n';
    context.out << amended_text(lines);
    if (!amended.copies.empty())
        context.out << text_line("The same questions were amended in " + joined(amended.copies, " and ") +
                                 ".");
    for (const auto& [topic, papers] : papers_with_old_topics(store, was, is))
        if (!papers.empty())
            context.out << text_line("The topic " + visible(topic) + " stays in " + joined(papers, " and ") +
                                     ".");
    for (const RenamedTopic& topic : amended.topics)
        context.out << text_line("No part on file has the topic " + visible(topic.from) +
                                 " any more: what was noted of it is now of " + visible(topic.to) + ".");
}

/// Whether it is to be kept unseen; nothing: as it is.
std::optional<bool> keep_unseen_typed(const PaperAmendOptions& options) {
    if (options.keep_unseen.empty())
        return std::nullopt;
    if (options.keep_unseen != "yes" && options.keep_unseen != "no")
        throw Error("--keep-unseen '" + options.keep_unseen + "': use yes or no");
    return options.keep_unseen == "yes";
}

/// To whom a paper that is to be kept unseen is none.
std::string sat_already_text(const Store& store, const std::string& id) {
    std::set<std::string> codes;
    for (const SittingOfPaper& sitting : store.sittings_of(*Context::paper_on_file(store, id), std::nullopt))
        codes.insert(sitting.candidate);
    if (codes.empty())
        return "";
    return text_line("But " + visible(list_text(codes)) + (codes.size() == 1 ? " has" : " have") +
                     " sat it already: for " + (codes.size() == 1 ? "that candidate" : "them") +
                     " it is no unseen mock. 'inkturn paper amend " + id +
                     " --keep-unseen no' takes it back.");
}

/// Which papers were drawn from it while it wasn't kept.
std::string drawn_already_text(const Store& store, const std::string& id) {
    std::set<std::string> drawn;
    for (const Copies& same : DrawnPapers::copies(store))
        if (same.front().paper == id)
            for (const QuestionName& copy : same)
                if (copy.paper != id)
                    drawn.insert(copy.paper);
    if (drawn.empty())
        return "";
    return text_line("But questions of it are in " + joined({drawn.begin(), drawn.end()}, " and ") +
                     ", drawn before: who sits " + (drawn.size() == 1 ? "that" : "these") + " meets them.");
}

/// Only if it wasn't so already; returns what to say of it.
std::string keep_unseen(Store::Change& change, const std::string& id, std::optional<bool> keep) {
    if (!keep || *keep == (QuestionBank::kept_unseen(change.store()).count(id) > 0))
        return "";
    QuestionBank(change).set_kept_unseen(id, *keep);
    if (!*keep)
        return text_line("Paper " + id + " is no longer kept unseen.");
    return text_line("Paper " + id +
                     " is kept unseen, for a mock: nothing is drawn from it, and no plan has it sat.") +
           sat_already_text(change.store(), id) + drawn_already_text(change.store(), id);
}

/// Returns what to say of it; empty where no new id was typed, or it is the paper's own.
std::string give_id(Store::Change& change, const std::string& id, const std::string& new_id) {
    if (new_id.empty() || new_id == id)
        return "";
    PapersOnFile(change).give_id(id, new_id);
    return text_line("Paper " + id + " is called " + new_id +
                     " from now on. Pages printed before, and other stores, still call it " + id + ".");
}

void amend(const Context& context, const PaperAmendOptions& options) {
    const PaperAmendment amendment = amendment_of(options);
    const std::optional<bool> keep = keep_unseen_typed(options);
    if (options.parts.empty() && !keep &&
        (options.new_id + options.title + options.subject + options.component + options.minutes).empty())
        throw UsageError("say what to change: --id, --title, --subject, --component, --minutes, "
                         "--keep-unseen or a PART:topic=TOPIC");
    Store store = context.store_to_write();
    question_new_subject(context, store, options.subject, options.id);
    Store::Change change(store);
    keep_days_passed(change, context.candidate_code(), context.date_today());
    const auto was = Context::paper_on_file(store, options.id);
    const Paper is = with_listed_topics(context, store, amended(*was, amendment), was.get());
    if (amendment.component)
        check_component_on_file(store, is);
    if (!options.minutes.empty())
        context.question_duration(is);
    const PaperAmended done = PapersOnFile(change).amend(is);
    const std::string kept = keep_unseen(change, is.id(), keep);
    const std::size_t sittings = sittings_of(store, is);
    const std::string renamed = give_id(change, is.id(), options.new_id);
    const std::vector<PlanChange> moved = moved_days(context, change);
    change.commit();
    const std::string& id = options.new_id.empty() ? is.id() : options.new_id;
    context.answer([&] { return json_of(*store.find_paper(id)); },
                   [&] {
                       if ((kept + renamed).empty() || !differences(*was, is).empty())
                           print_amended(context, store, *was, is, done);
                       context.out << kept << sittings_text(*was, is, sittings) << renamed
                                   << changes_text(moved) << "Next: inkturn paper show " << id << '\n';
                   });
}

} // namespace

void add_paper_amend(Command& group) {
    auto options = std::make_shared<PaperAmendOptions>();
    Command command = group.command("amend", "Correct a paper, whether it has been sat or not");
    command.argument("PAPER", options->id, "The paper's id").required();
    command.argument("PART:topic=TOPIC", options->parts,
                     "What to correct in a part: also PART:codes='M1 A1' and PART:marks=N");
    command.option("--id", options->new_id, "NEW", "Another id, not yet in use");
    command.option("--title", options->title, "T|none", "Its title; none: without one");
    command.option("--subject", options->subject, "S", "Its subject");
    command.option("--component", options->component, "NAME|none",
                   "The component of an award that it is a paper of; none: of no award");
    command.option("--minutes", options->minutes, "M", "The duration stated on it");
    command.option("--keep-unseen", options->keep_unseen, "yes|no",
                   "Keep it for a mock: draw nothing from it, and have no plan sit it");
    command.json();
    command.closing("Example:\n  inkturn paper amend pure-1 3b:topic=vectors 4:marks=6 '4:codes=M2 A4'\n"
                    "Sittings stay. Marks can be corrected as long as what is on file fits them.");
    command.runs(options, amend);
}

} // namespace inkturn
