#include "cli/student/paper_draw.hpp"

#include "cli/context.hpp"
#include "cli/outlooks.hpp"
#include "cli/student/papers_to_sit.hpp"
#include "cli/student/topics_meant.hpp"
#include "exchange/json/draw.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/plan/sittings_ahead.hpp"
#include "inkturn/practice/draw.hpp"
#include "inkturn/retry/latest.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/desk.hpp"
#include "inkturn/store/drawn_papers.hpp"
#include "inkturn/store/printed_sets.hpp"
#include "inkturn/store/question_bank.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>
#include <set>

namespace inkturn {
namespace {

constexpr int max_minutes_drawn = 600;
constexpr int max_questions_drawn = 100;

struct PaperDrawOptions {
    std::string id;
    std::string title;
    std::string minutes;
    std::string questions;
    DrawFrom from;
    bool dry_run = false;
};

using Papers = std::vector<std::shared_ptr<const Paper>>;

/// What was drawn, for whom and from what.
struct Draw {
    Stock stock;
    std::vector<Drawable> questions;
    Seconds time; ///< asked for; of so many questions theirs
    ExtraTime extra;
    std::optional<std::string> same; ///< a paper with the same questions, not sat yet
    std::string kept_but_sat;        ///< see kept_but_sat_text()
};

Papers papers_of(const Store& store, const std::string& subject) {
    Papers papers;
    for (auto& paper : store.papers())
        if (subject.empty() || paper->subject() == subject)
            papers.push_back(std::move(paper));
    if (papers.empty())
        throw Error(subject.empty() ? "no paper on file to draw from; 'inkturn paper add' adds one"
                                    : "no paper of subject " + subject +
                                          " on file to draw from; 'inkturn paper list' lists the papers");
    return papers;
}

/// How many questions can't be drawn, by reason.
std::vector<std::string> not_drawn(const Stock& stock) {
    std::vector<std::string> counts;
    const auto add = [&](std::size_t count, const std::string& what) {
        if (count > 0)
            counts.push_back(std::to_string(count) + what);
    };
    add(stock.waiting, stock.waiting == 1 ? " waiting as a retry" : " waiting as retries");
    add(stock.recent, " got less than " + std::to_string(Stock::min_rest.count()) + " days ago");
    add(stock.on_desk,
        stock.on_desk == 1 ? " in a script not marked through" : " in scripts not marked through");
    add(stock.seen, " sat before");
    add(stock.kept_unseen, " in papers kept unseen for a mock");
    return counts;
}

/// Of papers kept unseen that the candidate has sat, and how that ends; empty where there are none.
std::string kept_but_sat_text(const Papers& papers, const std::set<std::string>& kept_unseen,
                              const Candidate& candidate) {
    std::vector<std::string> sat;
    for (const auto& paper : papers)
        if (kept_unseen.count(paper->id()) > 0 && was_sat(candidate, paper->id()))
            sat.push_back(paper->id());
    if (sat.empty())
        return "";
    return joined(sat, " and ") + (sat.size() == 1 ? " is" : " are") +
           " kept unseen but sat already. To draw from " + (sat.size() == 1 ? "it" : "the first") +
           ": inkturn paper amend " + sat.front() + " --keep-unseen no";
}

void check_any_may_be_drawn(const Stock& stock, const std::string& kept_but_sat) {
    if (!stock.questions.empty())
        return;
    std::string why;
    for (const std::string& count : not_drawn(stock))
        why += (why.empty() ? ": " : ", ") + count;
    throw Error("no question can be drawn" + why + "; name other topics, or add another paper" +
                (stock.kept_unseen == 0 || kept_but_sat.empty() ? "" : ". " + kept_but_sat));
}

void check_any_fits(const Draw& draw, Seconds without_extra_time) {
    if (!draw.questions.empty())
        return;
    const auto shortest =
        std::min_element(draw.stock.questions.begin(), draw.stock.questions.end(),
                         [](const Drawable& a, const Drawable& b) { return a.allowance < b.allowance; });
    throw Error("no question fits: the shortest to draw takes " + length_text(shortest->allowance) +
                ", but the paper has only " + length_text(without_extra_time) +
                (draw.extra.percent() > 0
                     ? " without the extra time of " + std::to_string(draw.extra.percent()) + "%"
                     : "") +
                "; use more --minutes");
}

/// What is asked for: a time to fill, or so many questions.
struct DrawSize {
    Seconds time{0};
    std::size_t questions = 0; ///< 0: the time counts
};

Draw draw_from(const Context& context, const Store& store, const PaperDrawOptions& options, DrawSize size) {
    const Candidate candidate = context.candidate_on_file(store);
    const Papers papers = papers_of(store, options.from.subject);
    DrawFrom from = options.from;
    from.topics = topics_meant(store, papers, from.subject, from.topics);
    from.kept_unseen = QuestionBank::kept_unseen(store);
    const std::vector<Copies> copies = DrawnPapers::copies(store);
    from.to_sit = PapersOfPlans(store).to_sit(candidate, context.date_today());
    Draw drawn{
        drawable(papers, copies, candidate, Desk::scripts(store, candidate.code), from, context.date_today()),
        {},
        size.time,
        {},
        {},
        kept_but_sat_text(papers, from.kept_unseen, candidate)};
    check_any_may_be_drawn(drawn.stock, drawn.kept_but_sat);
    drawn.extra = extra_time_ahead(candidate);
    const Seconds to_fill = without_extra(size.time, drawn.extra);
    const Outlooks outlooks(context, store, peers_of(store, candidate.code));
    const TopicsFound found = outlooks.topics_of({candidate.code}, options.from.subject, {});
    if (size.questions > 0)
        drawn.questions = draw_questions(drawn.stock, found.topics, size.questions);
    else
        drawn.questions = draw(drawn.stock, found.topics, to_fill, context.date_today());
    check_any_fits(drawn, to_fill);
    drawn.same = paper_with(drawn.questions, papers_of(store, ""), copies, candidate);
    return drawn;
}

/// The subject that all the questions' papers share; empty if they don't.
std::string subject_of(const std::vector<Drawable>& questions) {
    const std::string& subject = questions.front().paper->subject();
    const bool shared = std::all_of(questions.begin(), questions.end(), [&](const Drawable& question) {
        return question.paper->subject() == subject;
    });
    return shared ? subject : "";
}

std::string why_drawn(const Drawable& question) {
    return question.got_on ? "got " + iso(*question.got_on) : "never sat";
}

void print_not_drawn(const Context& context, const Stock& stock) {
    const std::vector<std::string> counts = not_drawn(stock);
    if (!counts.empty())
        context.out << "Not drawn: " << wrapped_list(counts, text_width() - 12, 11) << ".\n";
}

void print(const Context& context, const PaperDrawOptions& options, const Paper& paper, const Draw& draw) {
    context.out << context.heading("Practice paper " + paper.id()) << ": " << paper.marks().count()
                << " marks, " << count_text(draw.questions.size(), "question") << ", "
                << length_text(allowance(paper)) << "\n\n";
    Table table({{"question", Table::Align::right},
                 {"from", Table::Align::left_may_be_cut},
                 {"topic", Table::Align::left_may_be_cut},
                 {"marks", Table::Align::right},
                 {"time", Table::Align::right},
                 {"why"}});
    for (std::size_t i = 0; i < draw.questions.size(); ++i) {
        const Drawable& question = draw.questions[i];
        table.add_row({paper.questions()[i].label,
                       question.paper->id() + " q" + question.paper_question().label, question.topic,
                       std::to_string(question.paper_question().marks.count()),
                       length_text(question.allowance), why_drawn(question)});
    }
    const Seconds filled = allowance(paper, draw.extra);
    context.out << table << '\n' << length_text(filled);
    if (options.questions.empty())
        context.out << " of the " << length_text(draw.time) << " asked for";
    else
        context.out << " in all, " << draw.questions.size() << " of the " << options.questions
                    << " questions asked for";
    if (filled < draw.time)
        context.out << ", " << length_text(draw.time - filled) << " left over";
    if (draw.extra.percent() > 0)
        context.out << "; with " << draw.extra.percent() << "% extra time,\nas in the latest sitting";
    context.out << ".\n";
    print_not_drawn(context, draw.stock);
    if (draw.stock.kept_unseen > 0 && !draw.kept_but_sat.empty())
        context.out << text_line(draw.kept_but_sat);
    context.out << to_sit_text(draw.questions, "the plan", !options.dry_run);
    if (draw.same)
        context.out << wrapped("Paper " + *draw.same + " has the same questions and hasn't been sat yet.",
                               text_width())
                    << '\n';
    if (options.dry_run)
        context.out << "Nothing was stored. Next: run it again without --dry-run\n";
    else
        context.out << "Next: inkturn pace " << paper.id() << context.same_candidate()
                    << (context.same_candidate().empty() ? ", then " : "\nthen: ") << "inkturn sit "
                    << paper.id() << context.same_candidate() << '\n';
}

DrawSize size_of(const PaperDrawOptions& options) {
    if (options.minutes.empty() == options.questions.empty())
        throw UsageError("use one of --minutes and --questions");
    if (options.minutes.empty())
        return {Seconds(0), static_cast<std::size_t>(parse_whole_number(options.questions, 1,
                                                                        max_questions_drawn, "--questions"))};
    return {std::chrono::minutes{parse_whole_number(options.minutes, 1, max_minutes_drawn, "--minutes")}, 0};
}

void run(const Context& context, const PaperDrawOptions& options) {
    const DrawSize size = size_of(options);
    check_paper_id(options.id);
    const Draw drawn = [&] {
        const Store store = context.store_to_read();
        if (store.find_paper(options.id))
            throw Error("paper " + options.id + " is already on file; give another --id");
        return draw_from(context, store, options, size);
    }();
    const std::string subject =
        options.from.subject.empty() ? subject_of(drawn.questions) : options.from.subject;
    const Paper paper =
        drawn_paper({options.id, options.title, subject, std::nullopt, RetryBy::question}, drawn.questions);
    if (!options.dry_run) {
        Store store = context.store_to_write();
        Store::Change change(store);
        DrawnPapers(change).add(paper, drawn.questions, context.date_today());
        if (store.has_candidate(context.candidate_code()))
            PrintedSets(change).keep({paper.id(), context.date_today(), context.candidate_code()});
        change.commit();
    }
    context.answer(
        [&] { return json_of_drawn(paper, drawn.questions, drawn.stock, drawn.time, drawn.extra); },
        [&] { print(context, options, paper, drawn); });
}

} // namespace

void add_paper_draw(Command& group) {
    auto options = std::make_shared<PaperDrawOptions>();
    Command draw =
        group.command("draw", "Make a practice paper from questions on file, weakest topics first");
    draw.option("--topic", options->from.topics, "T...", "Only questions on these topics (all)");
    draw.option("--minutes", options->minutes, "M", "The time to fill, 1 to 600, extra time included");
    draw.option("--questions", options->questions, "N", "Or how many questions to draw, 1 to 100");
    draw.option("--id", options->id, "ID", "The id to give it: lower-case letters, digits, . _ -").required();
    draw.option("--title", options->title, "T", "Its title");
    draw.option("--subject", options->from.subject, "S", "Only questions from papers of this subject (all)");
    draw.flag("--unseen", options->from.unseen, "Only questions that were never sat");
    draw.flag("--dry-run", options->dry_run, "Show it, store nothing");
    draw.json();
    draw.closing("Example:\n  inkturn paper draw --topic vectors integration --minutes 45 --id practice-1");
    draw.runs(options, run);
}

} // namespace inkturn
