#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/output_file.hpp"
#include "cli/student/papers_to_sit.hpp"
#include "cli/student/sets_on_file.hpp"
#include "cli/student/topics_meant.hpp"

#include "exchange/json/set.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/plan/sittings_ahead.hpp"
#include "inkturn/practice/free_id.hpp"
#include "inkturn/practice/question_set.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/desk.hpp"
#include "inkturn/store/drawn_papers.hpp"
#include "inkturn/store/papers.hpp"
#include "inkturn/store/printed_sets.hpp"
#include "inkturn/store/question_bank.hpp"
#include "view/page/sheet_size.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>
#include <set>

namespace inkturn {
namespace {

constexpr int max_minutes_of_set = 600;
constexpr int max_marks_of_set = 1000;

struct SetPrintOptions {
    std::string paper; ///< on file; empty: a set is made
    std::vector<std::string> topics;
    std::string subject;
    std::string marks;
    std::string minutes;
    bool all = false;
    std::string unseen_by;
    std::string of_class;
    std::string new_since;
    bool again = false;
    std::string id;
    std::string title;
    bool dry_run = false;
    bool large = false;
    OutputOptions output;
};

/// For whom a set is made.
struct SetFor {
    SetReaders readers;
    std::string candidate; ///< code; empty: not one candidate
    std::string of_class;  ///< name; empty: not a class
    ExtraTime extra;       ///< of a candidate
    std::string retrying;  ///< code whose open retries are left out; empty: nobody's

    /// Codes of those whose plans may have papers to be sat.
    std::vector<std::string> planning() const {
        return retrying.empty() ? readers.candidates : std::vector<std::string>{retrying};
    }

    std::string plans() const {
        return !of_class.empty()                         ? "a plan in the class"
               : !candidate.empty() && candidate != "me" ? "the plan of " + visible(candidate)
                                                         : "the plan";
    }
};

SetFor set_for(const Context& context, const Store& store, const SetPrintOptions& options) {
    SetFor made_for{{}, options.unseen_by, options.of_class, {}, ""};
    if (!options.unseen_by.empty()) {
        const bool is_first = options.unseen_by == context.candidate_code() && store.candidates().empty();
        if (!store.has_candidate(options.unseen_by) && !is_first)
            throw Error("no candidate " + options.unseen_by +
                        " on file; 'inkturn candidate list' shows those that are");
        const std::vector<std::string> classes = store.classes_of(options.unseen_by);
        made_for.readers = {{options.unseen_by}, {classes.begin(), classes.end()}};
        made_for.extra = extra_time_ahead(store.candidate(options.unseen_by));
    } else if (!options.of_class.empty()) {
        made_for.readers = {store.members(options.of_class), {options.of_class}};
    } else if (const std::string code = context.candidate_code(); store.has_candidate(code)) {
        made_for.retrying = code;
    }
    return made_for;
}

std::string readers_text(const std::string& candidate, const std::string& of_class) {
    return !candidate.empty() ? "candidate " + candidate : !of_class.empty() ? "class " + of_class : "";
}

SetFrom set_from(const Context& context, const Store& store, const SetPrintOptions& options,
                 const SetFor& made_for, const std::vector<std::shared_ptr<const Paper>>& papers) {
    SetFrom from;
    from.subject = options.subject;
    from.topics = topics_meant(store, papers, options.subject, options.topics);
    from.kept_unseen = QuestionBank::kept_unseen(store);
    if (!made_for.retrying.empty())
        from.waiting = questions_waiting(store.candidate(made_for.retrying));
    if (!options.new_since.empty())
        from.papers = QuestionBank::added_since(store, context.date_passed(options.new_since));
    const PapersOfPlans plans(store);
    for (const std::string& code : made_for.planning())
        from.to_sit.merge(plans.to_sit(store.candidate(code), context.date_today()));
    for (const std::string& code : made_for.readers.candidates)
        from.met.merge(questions_met(store.candidate(code), Desk::scripts(store, code)));
    if (options.again)
        return from;
    std::set<std::string> printed;
    for (const PrintedSet& set : sets_for(made_for.readers, PrintedSets::all(store)))
        printed.insert(set.paper);
    from.printed = questions_of(papers, printed);
    return from;
}

/// A set before it is on file.
struct SetMade {
    SetFor made_for;
    SetSize size;
    SetStock stock;
    std::vector<SetQuestion> chosen;
    std::vector<std::string> on; ///< the topics asked for that it has a question on
    std::vector<std::string> not_on;

    std::vector<Drawable> questions() const {
        std::vector<Drawable> all;
        for (const SetQuestion& question : chosen)
            all.push_back(question.drawable);
        return all;
    }
};

/// How many questions are left out, by reason.
std::vector<std::string> left_out(const SetMade& made) {
    const SetStock& stock = made.stock;
    std::vector<std::string> counts;
    const auto add = [&](std::size_t count, const std::string& what) {
        if (count > 0)
            counts.push_back(std::to_string(count) + what);
    };
    add(stock.met, " sat or retried before");
    add(stock.printed, made.made_for.readers.empty() ? " in earlier sets" : " in earlier sets for them");
    add(stock.kept_unseen, " in papers kept unseen for a mock");
    add(stock.waiting, " waiting as " + std::string(stock.waiting == 1 ? "a retry" : "retries") +
                           (made.made_for.retrying == "me" ? "" : " of " + visible(made.made_for.retrying)));
    return counts;
}

void check_any_left(const SetMade& made, const SetPrintOptions& options) {
    const SetStock& stock = made.stock;
    if (!stock.questions.empty())
        return;
    const std::vector<std::string> counts = left_out(made);
    throw Error((counts.empty() ? "no question can be printed"
                                : "no question is left to print (left out: " + joined(counts, ", ") + ")") +
                (stock.printed > 0   ? "; --again takes those of earlier sets too"
                 : stock.waiting > 0 ? "; 'inkturn booklet' prints retries"
                 : counts.empty() && !options.new_since.empty()
                     ? ": no paper put on file since then has one"
                     : "; name other topics, or add another paper"));
}

void check_size_stated(const SetPrintOptions& options) {
    const int stated =
        (options.marks.empty() ? 0 : 1) + (options.minutes.empty() ? 0 : 1) + (options.all ? 1 : 0);
    if (stated != 1)
        throw UsageError("say how much it is to hold: one of --marks M, --minutes M and --all");
}

SetSize size_of_set(const SetPrintOptions& options, ExtraTime extra) {
    SetSize size;
    if (!options.marks.empty())
        size.marks = Marks(parse_whole_number(options.marks, 1, max_marks_of_set, "--marks"));
    if (!options.minutes.empty())
        size.time = without_extra(
            std::chrono::minutes{parse_whole_number(options.minutes, 1, max_minutes_of_set, "--minutes")},
            extra);
    return size;
}

void check_any_chosen(const SetMade& made, const SetSize& size) {
    if (!made.chosen.empty())
        return;
    const auto smallest = std::min_element(
        made.stock.questions.begin(), made.stock.questions.end(), [](const auto& a, const auto& b) {
            return a.drawable.paper_question().marks < b.drawable.paper_question().marks;
        });
    throw Error("no question fits: the smallest has " +
                counted_marks(smallest->drawable.paper_question().marks) + " in " +
                length_text(smallest->drawable.allowance) +
                (size.marks ? "; use more --marks" : "; use more --minutes"));
}

/// Whether one of the questions has a part on one of the topics.
bool any_on(const std::vector<SetQuestion>& questions, const std::vector<std::string>& topics) {
    for (const SetQuestion& question : questions)
        for (const std::size_t part : question.drawable.paper_question().parts)
            if (std::count(topics.begin(), topics.end(), question.drawable.paper->part(part).topic) > 0)
                return true;
    return false;
}

SetMade make_set(const Context& context, const Store& store, const SetPrintOptions& options) {
    SetMade made;
    made.made_for = set_for(context, store, options);
    made.size = size_of_set(options, made.made_for.extra);
    const std::vector<std::shared_ptr<const Paper>> papers = store.papers();
    made.stock = set_stock(papers, DrawnPapers::copies(store),
                           set_from(context, store, options, made.made_for, papers));
    check_any_left(made, options);
    made.chosen = choose_set(made.stock, made.size);
    check_any_chosen(made, made.size);
    for (const std::string& topic : options.topics)
        (any_on(made.chosen, topics_meant(store, papers, options.subject, {topic})) ? made.on : made.not_on)
            .push_back(topic);
    return made;
}

std::string id_of_set(const Store& store, const SetPrintOptions& options, const SetMade& made) {
    return options.id.empty()
               ? free_paper_id("set", made.on.empty() ? "" : made.on.front(), PapersOnFile::ids(store))
               : options.id;
}

std::string title_of_set(const SetPrintOptions& options, const SetMade& made) {
    if (!options.title.empty())
        return options.title;
    return made.on.empty() ? "Set of questions" : "Set on " + joined(made.on, " and ");
}

/// The subject that all the questions' papers share; empty if they don't.
std::string subject_of_set(const std::vector<SetQuestion>& questions) {
    const std::string& subject = questions.front().drawable.paper->subject();
    const bool is_shared = std::all_of(questions.begin(), questions.end(), [&](const SetQuestion& question) {
        return question.drawable.paper->subject() == subject;
    });
    return is_shared ? subject : "";
}

Paper paper_of_set(const Store& store, const SetPrintOptions& options, const SetMade& made) {
    return drawn_paper({id_of_set(store, options, made), title_of_set(options, made),
                        subject_of_set(made.chosen), std::nullopt, RetryBy::question},
                       made.questions());
}

/// Writes the page of a paper on file.
SetWritten write_set(const Context& context, const Store& store, const SetPrintOptions& options,
                     const std::shared_ptr<const Paper>& paper, const std::string& readers, ExtraTime extra) {
    PicturesOnFile pictures(store);
    QuestionSet set = SetsOnFile(store).set_of(paper, pictures);
    set.readers = readers;
    set.extra = extra;
    set.size = options.large ? PrintSize::large : PrintSize::usual;
    use_paper_size(context);
    const std::string page = to_html(set);
    write_output(context, options.output, page, OwnMark::html);
    SetWritten written{page.size(), count_of_pictures(set), 0};
    for (const QuestionOfSet& question : set.questions)
        written.without_picture += question.question.empty() ? 1U : 0U;
    return written;
}

/// Where there is less than was asked for.
std::string short_text(const Paper& paper, const SetMade& made) {
    const bool is_all = made.chosen.size() == made.stock.questions.size();
    if (made.size.marks && paper.marks() < *made.size.marks)
        return text_line("It has only " + marks_number(paper.marks()) + " of the " +
                         counted_marks(*made.size.marks) + " asked for: " +
                         (is_all ? "there are no more questions to print." : "no further question fits."));
    if (made.size.time && is_all && allowance(paper) < *made.size.time)
        return text_line("It takes less than the time asked for: there are no more questions to print.");
    return "";
}

void print_questions(const Context& context, const Paper& paper, const SetMade& made, bool is_stored) {
    Table table({{"question", Table::Align::right},
                 {"from", Table::Align::left_may_be_cut},
                 {"topic", Table::Align::left_may_be_cut, true},
                 {"marks", Table::Align::right},
                 {"time", Table::Align::right}});
    const std::vector<Seconds> times = part_allowances(paper, made.made_for.extra);
    for (std::size_t i = 0; i < made.chosen.size(); ++i) {
        const Drawable& question = made.chosen[i].drawable;
        table.add_row({paper.question(i).label, question.paper->id() + " q" + question.paper_question().label,
                       question.topic, marks_number(question.paper_question().marks),
                       length_text(question_allowance(paper.question(i), times))});
    }
    context.out << table << '\n' << short_text(paper, made);
    if (!made.not_on.empty())
        context.out << text_line("It has no question on " + visible(joined(made.not_on, " or ")) + ".");
    const std::vector<std::string> counts = left_out(made);
    if (!counts.empty())
        context.out << text_line("Left out: " + joined(counts, ", ") + ".");
    context.out << to_sit_text(made.questions(), made.made_for.plans(), is_stored);
}

/// `Set set-vectors-1: 40 marks in 7 questions, 48:00`.
std::string set_text(const Paper& paper, ExtraTime extra) {
    return "Set " + paper.id() + ": " + counted_marks(paper.marks()) + " in " +
           count_text(paper.questions().size(), "question") + ", " + length_text(allowance(paper, extra)) +
           (extra.percent() > 0 ? " with " + std::to_string(extra.percent()) + "% extra time" : "");
}

void print_written(const Context& context, const SetWritten& written) {
    context.out << text_line("The page has " + count_text(written.pictures, "picture") + " and is " +
                             size_text(written.bytes) + "." +
                             (written.without_picture == 0
                                  ? ""
                                  : " " + count_text(written.without_picture, "question") +
                                        (written.without_picture == 1 ? " has" : " have") +
                                        " no picture on file: it says where to find " +
                                        (written.without_picture == 1 ? "it." : "them.")));
}

/// Whether nobody else of the class is on file: it is a candidate's own store.
bool is_of_one(const Store& store, const std::string& of_class, const std::string& code) {
    return store.members(of_class) == std::vector<std::string>{code};
}

/// Who sits it, and what to do next; a paper that was drawn is no set.
std::string use_text(const Context& context, const Store& store, const Paper& paper,
                     const std::optional<PrintedSet>& set) {
    const std::string code = context.candidate_code();
    std::string next = "inkturn sit " + paper.id() +
                       (set && !set->candidate.empty() && set->candidate != code
                            ? " --candidate " + shell_word(set->candidate)
                            : context.same_candidate());
    if (set && !set->of_class.empty() && !is_of_one(store, set->of_class, code))
        next = "inkturn class mark " + paper.id() + " --class " + shell_word(set->of_class);
    const bool is_for_nobody = set && set->is_for_nobody();
    return (is_for_nobody ? text_line("It is for nobody in particular, so no plan has it sat until a day "
                                      "is asked for: inkturn plan --paper " +
                                      paper.id() + " --on DAY")
                          : "") +
           text_line("Next: open the file in a browser and print it on " + std::string(sheet_size_text()) +
                     "; then " + next);
}

void print_on_file(const Context& context, const SetPrintOptions& options) {
    const Store store = context.store_to_read();
    const auto paper = Context::paper_on_file(store, options.paper);
    std::optional<PrintedSet> printed;
    for (const PrintedSet& set : PrintedSets::all(store))
        if (set.paper == paper->id())
            printed = set;
    const std::string readers = printed ? readers_text(printed->candidate, printed->of_class) : "";
    const ExtraTime extra = printed && !printed->candidate.empty()
                                ? extra_time_ahead(store.candidate(printed->candidate))
                                : ExtraTime();
    const SetWritten written = write_set(context, store, options, paper, readers, extra);
    if (options.output.file == "-")
        return;
    context.answer([&] { return json_of_set(*paper, written); },
                   [&] {
                       context.out << context.heading(set_text(*paper, extra)) << '\n';
                       print_written(context, written);
                       context.out << use_text(context, store, *paper, printed);
                   });
}

void try_set(const Context& context, const SetPrintOptions& options) {
    const Store store = context.store_to_read();
    const SetMade made = make_set(context, store, options);
    const Paper paper = paper_of_set(store, options, made);
    context.answer(
        [&] { return json_of_set(paper, made.chosen, made.stock, {}); },
        [&] {
            context.out << context.heading(set_text(paper, made.made_for.extra)) << "\n\n";
            print_questions(context, paper, made, false);
            context.out << "Nothing was stored. Next: run it again with -o FILE.html in place of --dry-run\n";
        });
}

void make_and_print(const Context& context, const SetPrintOptions& options) {
    const SetMade made = make_set(context, context.store_to_read(), options);
    Store store = context.store_to_write();
    const Paper paper = paper_of_set(store, options, made);
    Store::Change change(store);
    DrawnPapers(change).add(paper, made.questions(), context.date_today());
    const SetFor& made_for = made.made_for;
    const PrintedSet set{paper.id(), context.date_today(), made_for.candidate, made_for.of_class};
    PrintedSets(change).keep(set);
    const SetWritten written = write_set(context, store, options, store.find_paper(paper.id()),
                                         readers_text(made_for.candidate, made_for.of_class), made_for.extra);
    change.commit();
    if (options.output.file == "-")
        return;
    context.answer([&] { return json_of_set(paper, made.chosen, made.stock, written); },
                   [&] {
                       context.out << context.heading(set_text(paper, made_for.extra)) << "\n\n";
                       print_questions(context, paper, made, true);
                       print_written(context, written);
                       context.out << use_text(context, store, paper, set);
                   });
}

void print_set(const Context& context, const SetPrintOptions& options) {
    const bool is_chosen = !options.topics.empty() || options.all || options.again ||
                           !(options.subject + options.marks + options.minutes + options.unseen_by +
                             options.of_class + options.new_since + options.id + options.title)
                                .empty();
    if (!options.paper.empty() && (is_chosen || options.dry_run))
        throw UsageError("a paper on file is printed as it is: leave the other options out");
    if (options.paper.empty())
        check_size_stated(options);
    if (options.output.file.empty() && !options.dry_run)
        throw UsageError("say where to write it, with -o FILE");
    if (!options.id.empty())
        check_paper_id(options.id);
    if (!options.paper.empty())
        print_on_file(context, options);
    else if (options.dry_run)
        try_set(context, options);
    else
        make_and_print(context, options);
}

void list_sets(const Context& context) {
    const Store store = context.store_to_read();
    const std::vector<PrintedSet> sets = PrintedSets::all(store);
    std::vector<std::shared_ptr<const Paper>> papers;
    for (const PrintedSet& set : sets)
        papers.push_back(store.find_paper(set.paper));
    context.answer(
        [&] { return json_of(sets, papers); },
        [&] {
            if (sets.empty()) {
                context.out << "No set was made yet.\nNext: inkturn set print --topic T --marks 40 -o "
                               "FILE.html\n";
                return;
            }
            Table table({{"set"},
                         {"made"},
                         {"for", Table::Align::left_may_be_cut},
                         {"questions", Table::Align::right},
                         {"marks", Table::Align::right},
                         {"time", Table::Align::right}});
            for (std::size_t i = 0; i < sets.size(); ++i)
                table.add_row({sets[i].paper, date_text(sets[i].day),
                               readers_text(sets[i].candidate, sets[i].of_class),
                               std::to_string(papers[i]->questions().size()),
                               marks_number(papers[i]->marks()), length_text(allowance(*papers[i]))});
            context.out << table << "\nNext: inkturn set print SET -o FILE.html prints one again\n";
        });
}

} // namespace

void add_set(Command& line) {
    auto options = std::make_shared<SetPrintOptions>();
    Command group = line.group("set", "Sets of questions on a topic, from all papers: print, list");
    group.closing("Example:\n  inkturn set print --topic vectors --marks 40 -o vectors.html");

    Command print =
        group.command("print", "Print questions on topics as pictures, with mark schemes at the end");
    print.argument("PAPER", options->paper, "A set or drawn paper on file, to print it; else one is made");
    print.option("--topic", options->topics, "T...", "Questions on these topics and their pieces (all)");
    print.option("--subject", options->subject, "S", "Only questions from papers of this subject (all)");
    print.option("--marks", options->marks, "M", "As many questions as fill so many marks; or");
    print.option("--minutes", options->minutes, "M",
                 "As many as fill so many minutes, 1 to 600, extra time included; or");
    print.flag("--all", options->all, "All there are");
    const Option unseen_by = print.option("--unseen-by", options->unseen_by, "CODE",
                                          "For this candidate: nothing that they sat or retried");
    print
        .option("--class", options->of_class, "CLASS",
                "For this class: nothing that any of its members sat or retried")
        .excludes(unseen_by);
    print.option("--new-since", options->new_since, "D", "Only from papers put on file on this day or later");
    print.flag("--again", options->again, "Also questions of earlier sets for the same candidate or class");
    print.option("--id", options->id, "ID", "The id to give it (set-TOPIC-1, -2 and so on)");
    print.option("--title", options->title, "T", "Its title");
    print.flag("--large", options->large, "Large print: words at 18 points, pictures larger where they fit");
    print.flag("--dry-run", options->dry_run, "Show which questions it would hold; store and write nothing");
    options->output.add_to(print, "The file to write the page to, which only you can read");
    print.json();
    print.closing("Example:\n  inkturn set print --topic vectors --marks 40 --unseen-by K07 -o vectors.html\n"
                  "The set is on file as a paper: sit, mark and retry it like one. What waits as\n"
                  "your retry is left out: it comes round by itself.");
    print.runs(options, print_set);

    Command list = group.command("list", "List the sets and drawn papers on file, and for whom");
    list.json();
    list.closing("Example:\n  inkturn set list");
    list.runs(list_sets);
}

} // namespace inkturn
