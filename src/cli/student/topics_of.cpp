#include "cli/csv_options.hpp"
#include "cli/data/topics_amended.hpp"
#include "cli/output_file.hpp"
#include "cli/student/topics.hpp"
#include "cli/subjects.hpp"
#include "cli/terminal.hpp"
#include "cli/topic_spelling.hpp"

#include "exchange/csv/part_topics.hpp"
#include "exchange/json/part_topics.hpp"
#include "exchange/workbook/write.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/paper/topic_words.hpp"
#include "inkturn/store/drawn_papers.hpp"
#include "inkturn/store/question_bank.hpp"
#include "inkturn/store/topic_lists.hpp"
#include "view/text/text.hpp"
#include "view/text/timetable.hpp"

#include <algorithm>
#include <iostream>
#include <map>
#include <set>

namespace inkturn {
namespace {

struct TopicsOfOptions {
    std::vector<std::string> papers;
    std::string subject;
    std::string read;
    OutputOptions output;
    CsvOptionTexts csv;
    bool ask = false;
};

using PapersToName = std::vector<std::shared_ptr<const Paper>>;

PapersToName papers_named(const Context& context, const Store& store, const TopicsOfOptions& options) {
    PapersToName papers;
    for (const std::string& id : options.papers)
        papers.push_back(Context::paper_on_file(store, id));
    if (!papers.empty())
        return papers;
    check_subject_filter(context, store, options.subject);
    std::set<QuestionName> drawn; // their topics follow those of the questions that they were drawn from
    for (const Copies& same : DrawnPapers::copies(store))
        drawn.insert(std::next(same.begin()), same.end());
    for (const auto& paper : store.papers())
        if ((options.subject.empty() || paper->subject() == options.subject) &&
            drawn.count({paper->id(), paper->questions().front().label}) == 0)
            papers.push_back(paper);
    if (papers.empty())
        throw Error("no paper on file; 'inkturn paper add' adds one");
    return papers;
}

/// The words of parts of one subject that have a topic, and how proposals from them fare.
struct SubjectWords {
    std::vector<WordedPart> known;
    TopicWords words{known};
    HeldOutTopics fared = held_out(known);
};

/// Proposes topics for the parts of papers.
class Proposer {
  public:
    explicit Proposer(const Store& store)
        : words_(QuestionBank::words(store)),
          copies_(DrawnPapers::copies(store)),
          lists_(TopicLists::all(store)) {
        for (const auto& paper : store.papers())
            papers_[paper->subject()].push_back(paper);
    }

    PartTopicRow row_of(const Paper& paper, std::size_t position) {
        const Part& part = paper.part(position);
        const WordsByPart& words = words_[paper.id()];
        const auto own = words.find(part.label);
        PartTopicRow row{paper.id(), part.label,
                         part.max,   own == words.end() ? "" : own->second,
                         part.topic, part.topic.empty() ? "" : "on file",
                         ""};
        if (part.topic.empty())
            propose(row, of(paper.subject()).words.propose(telling_words(paper, position, words)));
        return row;
    }

    HeldOutTopics fared(const PapersToName& papers) {
        std::set<std::string> subjects;
        for (const auto& paper : papers)
            subjects.insert(paper->subject());
        HeldOutTopics sum;
        for (const std::string& subject : subjects) {
            const HeldOutTopics one = of(subject).fared;
            sum.parts += one.parts;
            sum.sure += one.sure;
            sum.right += one.right;
        }
        return sum;
    }

  private:
    static void propose(PartTopicRow& row, const TopicProposal& proposal) {
        if (proposal.is_sure()) {
            row.topic = proposal.topics.front().topic;
            row.says = "proposed";
            return;
        }
        for (const TopicProposal::Topic& one : proposal.topics)
            row.perhaps += (row.perhaps.empty() ? "" : "; ") + one.topic;
    }

    const SubjectWords& of(const std::string& subject) {
        const auto found = by_subject_.find(subject);
        if (found != by_subject_.end())
            return found->second;
        std::vector<WordedPart> known = worded_parts(papers_[subject], copies_, words_);
        if (const auto list = lists_.find(subject); list != lists_.end())
            known = with_listed_topics_alone(known, list->second);
        return by_subject_.emplace(subject, SubjectWords{std::move(known)}).first->second;
    }

    std::map<std::string, PartWords> words_;
    std::vector<Copies> copies_;
    std::map<std::string, TopicList> lists_;
    std::map<std::string, PapersToName> papers_; ///< by subject
    std::map<std::string, SubjectWords> by_subject_;
};

/// How many of the parts have a topic, are given one by a proposal, and are in doubt.
struct TopicsFilled {
    std::size_t on_file = 0;
    std::size_t proposed = 0;
    std::size_t open = 0;
};

TopicsFilled filled_in(const std::vector<PartTopicRow>& rows) {
    TopicsFilled filled;
    for (const PartTopicRow& row : rows)
        ++(row.topic.empty() ? filled.open : row.says == "proposed" ? filled.proposed : filled.on_file);
    return filled;
}

void print_filled(const Context& context, std::size_t papers, const std::vector<PartTopicRow>& rows,
                  const HeldOutTopics& fared) {
    const TopicsFilled filled = filled_in(rows);
    context.out << text_line(count_text(rows.size(), "part") + " in " + count_text(papers, "paper") + ": " +
                             std::to_string(filled.on_file) + " with a topic, " +
                             std::to_string(filled.proposed) + " with one proposed, " +
                             std::to_string(filled.open) + " left to you.");
    if (filled.proposed + filled.open == 0)
        return;
    if (fared.parts == 0) {
        context.out << text_line("Nothing can be proposed: no part on file has both a topic and its printed "
                                 "words, which 'inkturn paper read' keeps.");
        return;
    }
    context.out << text_line(
        "A topic is proposed where at least " + std::to_string(TopicProposal::sure_lead) +
        " more of the part's words speak for it than for any other. Tried on the " +
        count_text(fared.parts, "part") +
        " that had a topic and words, each as if its paper were not on file, it proposed " +
        (fared.sure == 0
             ? "none."
             : std::to_string(fared.sure) + ", " + std::to_string(fared.right) + " of them right."));
}

std::vector<std::string> listed_topics(const Store& store, const PapersToName& papers) {
    std::vector<std::string> topics;
    std::set<std::string> subjects;
    const std::map<std::string, TopicList> lists = TopicLists::all(store);
    for (const auto& paper : papers)
        if (const auto list = lists.find(paper->subject());
            list != lists.end() && subjects.insert(paper->subject()).second)
            for (const ListedTopic& listed : list->second.topics())
                topics.push_back(listed.topic);
    return topics;
}

bool ends_with(const std::string& text, const std::string& end) {
    return text.size() >= end.size() && text.compare(text.size() - end.size(), end.size(), end) == 0;
}

void write_table(const Context& context, const TopicsOfOptions& options, const Store& store,
                 const PapersToName& papers, const std::vector<PartTopicRow>& rows) {
    constexpr std::size_t topic_column = 4;
    if (ends_with(options.output.file, ".ods"))
        throw Error(
            "a table is written as CSV or .xlsx, which LibreOffice opens too: give the file such a name");
    const std::string content = ends_with(options.output.file, ".xlsx")
                                    ? workbook_of({"topics", cells_of(rows), {14, 7, 7, 60, 28, 10, 40}},
                                                  {topic_column, listed_topics(store, papers)})
                                    : csv_of(rows);
    write_output(context, options.output, content);
}

// Reading the table back, or what was typed

void store_topics(const Context& context, Store& store, const std::vector<PartTopic>& topics) {
    std::map<std::string, PaperAmendment> amendments;
    std::size_t changed = 0;
    for (const PartTopic& read : topics) {
        const auto paper = store.find_paper(read.paper);
        if (paper->part(*paper->find_part(read.part)).topic == read.topic)
            continue;
        amendments[read.paper].parts.push_back({read.part, read.topic, {}, {}});
        ++changed;
    }
    for (const auto& [id, amendment] : amendments) {
        const auto was = store.find_paper(id);
        question_topics(context, store, amended(*was, amendment), was.get());
    }
    Store::Change change(store);
    const std::vector<PlanChange> moved = amend_topics(context, change, amendments);
    change.commit();
    context.answer([&] { return json_of_topics_stored(changed, topics.size() - changed, amendments.size()); },
                   [&] {
                       context.out << text_line(
                           changed == 0
                               ? "Nothing to store: every part with a topic had it already."
                               : "Stored the topics of " + count_text(changed, "part") + " in " +
                                     count_text(amendments.size(), "paper") + "; " +
                                     std::to_string(topics.size() - changed) + " had theirs already.");
                       context.out << changes_text(moved) << "Next: inkturn topics list\n";
                   });
}

PartTopicsContext topics_met(const Store& store) {
    PartTopicsContext met;
    for (const auto& paper : store.papers())
        met.papers.emplace(paper->id(), paper);
    met.lists = TopicLists::all(store);
    return met;
}

void read_table(const Context& context, const TopicsOfOptions& options) {
    const InputFile file(options.read, context);
    Store store = context.store_to_write();
    ProblemList problems;
    const std::vector<PartTopic> topics =
        read_part_topic_rows(*options.csv.rows_of(file), topics_met(store), problems);
    refuse_problems(context, file.name(), problems);
    store_topics(context, store, topics);
}

/// What was answered for a part in doubt.
struct TopicAnswer {
    std::string topic; ///< empty: left as it is
    bool ends = false;
};

class TopicWalk {
  public:
    TopicWalk(const Context& context, const Store& store) : context_(context), met_(topics_met(store)) {}

    /// Fills in what is typed for the rows that are open.
    void fill_in(std::vector<PartTopicRow>& rows) const {
        const TopicsFilled filled = filled_in(rows);
        context_.out
            << "A number takes what is proposed; otherwise type the topic. Enter leaves it, q ends.\n";
        std::size_t asked = 0;
        for (PartTopicRow& row : rows) {
            if (!row.topic.empty())
                continue;
            const TopicAnswer answer = ask(row, ++asked, filled.open);
            if (answer.ends)
                return;
            row.topic = answer.topic;
        }
    }

  private:
    TopicAnswer ask(const PartTopicRow& row, std::size_t asked, std::size_t of) const {
        const std::vector<std::string> proposed = proposed_for(row);
        context_.out << '\n'
                     << text_line(std::to_string(asked) + " of " + std::to_string(of) + "  " + row.paper +
                                  " " + row.part + ", " + counted_marks(row.marks) +
                                  (row.words.empty() ? "" : ": " + visible(row.words)));
        for (std::size_t i = 0; i < proposed.size(); ++i)
            context_.out << "  " << i + 1 << "  " << visible(proposed[i]) << '\n';
        for (;;) {
            context_.out << "topic> " << std::flush;
            std::string typed;
            if (!std::getline(context_.in, typed) || typed == "q")
                return {"", true};
            if (typed.empty())
                return {};
            if (const auto topic = topic_typed(row, proposed, typed))
                return {*topic};
        }
    }

    static std::vector<std::string> proposed_for(const PartTopicRow& row) {
        std::vector<std::string> proposed;
        for (std::size_t start = 0; start < row.perhaps.size();) {
            const std::size_t end = std::min(row.perhaps.find("; ", start), row.perhaps.size());
            proposed.push_back(row.perhaps.substr(start, end - start));
            start = end + 2;
        }
        return proposed;
    }

    std::optional<std::string> topic_typed(const PartTopicRow& row, const std::vector<std::string>& proposed,
                                           const std::string& typed) const {
        if (const auto number = read_whole_number(typed, static_cast<int>(proposed.size()));
            number && *number > 0)
            return proposed[static_cast<std::size_t>(*number) - 1];
        const auto list = met_.lists.find(met_.papers.at(row.paper)->subject());
        if (list == met_.lists.end())
            return typed;
        const SpelledTopic spelled = list->second.spelled(typed);
        if (spelled.spelling == TopicSpelling::listed || spelled.spelling == TopicSpelling::alike)
            return spelled.listed;
        context_.out << text_line("The list has no " + visible(typed) +
                                  (spelled.spelling == TopicSpelling::near
                                       ? ". Did you mean " + visible(spelled.listed) + "?"
                                       : ": type it as 'inkturn topics list' shows it."));
        return std::nullopt;
    }

    const Context& context_;
    PartTopicsContext met_;
};

void ask_and_store(const Context& context, Store& store, std::vector<PartTopicRow> rows) {
    if (!stdin_is_terminal() || !stdout_is_terminal())
        throw Error(
            "--ask needs a terminal; without one use -o FILE, fill the file in, then use --read FILE");
    TopicWalk(context, store).fill_in(rows);
    std::vector<PartTopic> topics;
    for (const PartTopicRow& row : rows)
        if (!row.topic.empty() && row.says != "on file")
            topics.push_back({row.paper, row.part, row.topic});
    const std::size_t proposed = filled_in(rows).proposed;
    if (topics.empty() || !context.confirmed("Store " + count_text(topics.size(), "topic") + ", " +
                                             std::to_string(proposed) + " of them as proposed?"))
        throw Error("nothing was stored");
    store_topics(context, store, topics);
}

void name_topics(const Context& context, const TopicsOfOptions& options) {
    if (!options.read.empty()) {
        read_table(context, options);
        return;
    }
    Store store = options.ask ? context.store_to_write() : context.store_to_read();
    const PapersToName papers = papers_named(context, store, options);
    Proposer proposer(store);
    std::vector<PartTopicRow> rows;
    for (const auto& paper : papers)
        for (std::size_t i = 0; i < paper->parts().size(); ++i)
            rows.push_back(proposer.row_of(*paper, i));
    const HeldOutTopics fared = proposer.fared(papers);
    if (!options.output.file.empty())
        write_table(context, options, store, papers, rows);
    if (options.output.file == "-")
        return;
    if (!options.ask) {
        context.answer([&] { return json_of(rows, fared); },
                       [&] {
                           print_filled(context, papers.size(), rows, fared);
                           const TopicsFilled filled = filled_in(rows);
                           if (options.output.file.empty() && filled.proposed + filled.open == 0)
                               context.out << context.next("topics");
                           else if (options.output.file.empty())
                               context.out << "Next: run it again with -o topics.csv, or with --ask\n";
                           else
                               context.out << "Next: fill in the topics, then inkturn topics of --read "
                                           << shell_word(options.output.file) << '\n';
                       });
        return;
    }
    print_filled(context, papers.size(), rows, fared);
    ask_and_store(context, store, std::move(rows));
}

} // namespace

void add_topics_of(Command& topics) {
    auto options = std::make_shared<TopicsOfOptions>();
    Command command =
        topics.command("of", "Give parts their topics: one table over all papers, proposed where words tell");
    command.argument("PAPER", options->papers, "Ids of papers; all of the subject if none is named");
    command.option("--subject", options->subject, "S", "Papers of this subject (all)");
    options->output.add_to(command, "Write the table to this file, CSV or .xlsx, which only you can read");
    const Option ask = command.flag("--ask", options->ask,
                                    "Ask for the topics in doubt, then store these and those proposed");
    command
        .option("--read", options->read, "FILE",
                "Read the table back: CSV, .xlsx or .ods; - reads standard input")
        .excludes(ask);
    options->csv.add_to(command);
    command.json();
    command.closing("Examples:\n  inkturn topics of --subject pure -o topics.xlsx\n"
                    "  inkturn topics of --read topics.xlsx");
    command.runs(options, name_topics);
}

} // namespace inkturn
