#include "cli/class/doubts_listed.hpp"
#include "cli/csv_options.hpp"
#include "cli/data/topics_amended.hpp"
#include "cli/student/topics.hpp"
#include "cli/subjects.hpp"
#include "cli/topic_spelling.hpp"

#include "exchange/csv/topic_list.hpp"
#include "exchange/json/topic_list.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/practice/question_set.hpp"
#include "inkturn/store/drawn_papers.hpp"
#include "inkturn/store/topic_lists.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"
#include "view/text/timetable.hpp"

#include <iostream>
#include <map>
#include <set>

namespace inkturn {
namespace {

struct TopicsAddOptions {
    std::string file;
    std::string topic;
    std::string parent;
    std::string subject;
    std::vector<std::string> accepted;
    CsvOptionTexts csv;
    bool replace = false;
    bool yes = false;
};

/// A subject that looks like one on file is doubted; one that is just new is noted.
void question_subject(const Context& context, const Store& store, const std::string& subject,
                      FileDoubts& doubts) {
    if (const auto meant = subject_meant(store, subject))
        doubts.raise(
            DoubtKind::subject,
            {0, 0, "nothing on file has the subject '" + subject + "'; did you mean '" + *meant + "'?"});
    else
        question_new_subject(context, store, subject);
}

/// Topics that are nearly one of the list, as they are meant.
void settle_near(const TopicList& list, std::vector<ListedTopic>& typed, FileDoubts& doubts) {
    for (ListedTopic& one : typed) {
        const SpelledTopic spelled = list.spelled(one.topic);
        if (spelled.spelling != TopicSpelling::near)
            continue;
        doubts.raise(
            DoubtKind::topic,
            {0, 0, "the list has no topic '" + one.topic + "'; did you mean '" + spelled.listed + "'?"});
        if (!doubts.is_otherwise(DoubtKind::topic))
            continue;
        for (ListedTopic& piece : typed)
            if (piece.parent == one.topic)
                piece.parent = spelled.listed;
        one.topic = spelled.listed;
    }
}

std::vector<ListedTopic> topics_typed(const Context& context, const TopicsAddOptions& options,
                                      const TopicList& on_file) {
    if (options.file.empty() == options.topic.empty())
        throw UsageError("give either a FILE or --topic");
    if (options.file.empty())
        return {{options.topic, options.parent}};
    const InputFile file(options.file, context);
    ProblemList problems;
    std::vector<ListedTopic> topics =
        read_topic_rows(*options.csv.rows_of(file), options.replace ? TopicList() : on_file, problems);
    refuse_problems(context, file.name(), problems);
    return topics;
}

/// How the topics of papers on file stand against a list.
struct Respelling {
    std::map<std::string, PaperAmendment> amendments; ///< by paper's id
    std::size_t parts = 0;                            ///< of these
    std::map<std::string, std::string> near;          ///< topics left as they are, with what they may be
    std::set<std::string> unlisted;                   ///< like none of the list
};

/// Each topic is asked about once.
class Respeller {
  public:
    Respeller(const Context& context, const TopicList& list, bool take_near)
        : context_(context), list_(list), take_near_(take_near) {}

    void hold(const Paper& paper) {
        for (const Part& part : paper.parts()) {
            if (part.topic.empty())
                continue;
            const auto [known, is_new] = listed_.try_emplace(part.topic);
            if (is_new)
                known->second = listed(part.topic);
            if (known->second == part.topic)
                continue;
            found_.amendments[paper.id()].parts.push_back({part.label, known->second, {}, {}});
            ++found_.parts;
        }
    }

    Respelling found() && { return std::move(found_); }

  private:
    std::string listed(const std::string& topic) {
        const SpelledTopic spelled = list_.spelled(topic);
        if (spelled.spelling == TopicSpelling::unknown) {
            found_.unlisted.insert(topic);
            return topic;
        }
        if (spelled.spelling == TopicSpelling::near && !take_near_ &&
            !is_meant(context_, topic, spelled.listed)) {
            found_.near.emplace(topic, spelled.listed);
            return topic;
        }
        return spelled.listed;
    }

    const Context& context_;
    const TopicList& list_;
    bool take_near_;
    std::map<std::string, std::string> listed_; ///< by topic on file
    Respelling found_;
};

Respelling held_against(const Context& context, const Store& store, const std::string& subject,
                        const TopicList& list, bool take_near) {
    Respeller respeller(context, list, take_near);
    for (const auto& paper : store.papers())
        if (paper->subject() == subject)
            respeller.hold(*paper);
    return std::move(respeller).found();
}

/// The first of them, and that there are more.
std::string unlisted_text(const std::set<std::string>& topics) {
    const std::string names = visible(list_text(topics));
    return names.substr(0, names.rfind(", ...")) +
           (names.rfind(", ...") == std::string::npos ? "." : " and more.");
}

void print_unlisted(const Context& context, const Respelling& papers) {
    for (const auto& [topic, listed] : papers.near)
        context.out << text_line("Papers on file have the topic " + visible(topic) +
                                 ", which is not in the list. If it is " + visible(listed) +
                                 ", run this again with --yes.");
    if (!papers.unlisted.empty())
        context.out << text_line("Papers on file also have topics that are not in the list: " +
                                 unlisted_text(papers.unlisted));
}

void print_added(const Context& context, const TopicsAddOptions& options, const TopicList& was,
                 const TopicList& is, const Respelling& papers) {
    std::size_t added = 0;
    std::vector<std::string> moved;
    for (const ListedTopic& listed : is.topics()) {
        const auto before = was.find_alike(listed.topic);
        added += before ? 0U : 1U;
        if (before && was.topics()[*before].parent != listed.parent)
            moved.push_back(visible(listed.topic) + " (of " + visible(listed.parent) + ")");
    }
    context.out << "Topics of " << visible(options.subject) << ": " << added << " added, "
                << is.topics().size() << " in the list.\n";
    if (!moved.empty())
        context.out << text_line("Now a piece of another topic: " + joined(moved, ", ") + ".");
    if (papers.parts > 0)
        context.out << text_line("Spelled as in the list now: the topics of " +
                                 count_text(papers.parts, "part") + " in " +
                                 count_text(papers.amendments.size(), "paper") + ".");
    print_unlisted(context, papers);
    context.out << "Next: inkturn topics of --subject " << shell_word(options.subject) << '\n';
}

void add_to_list(const Context& context, const TopicsAddOptions& options) {
    check_printable(options.subject, 200, "--subject");
    Store store = context.store_to_write();
    FileDoubts doubts(options.accepted, {DoubtKind::subject, DoubtKind::topic});
    question_subject(context, store, options.subject, doubts);
    const TopicList was = TopicLists::of(store, options.subject);
    std::vector<ListedTopic> typed = topics_typed(context, options, was);
    if (!options.replace)
        settle_near(was, typed, doubts);
    refuse_open_doubts(context, doubts);
    const TopicList is = !options.topic.empty() ? with_topic(was, typed.front())
                                                : with_topics(options.replace ? TopicList() : was, typed);
    const Store::Seen seen = store.seen();
    const Respelling papers = held_against(context, store, options.subject, is, options.yes);
    Store::Change change(store, seen);
    TopicLists(change).keep(options.subject, is);
    const std::vector<PlanChange> moved = amend_topics(context, change, papers.amendments);
    change.commit();
    context.answer([&] { return json_of(options.subject, is); },
                   [&] {
                       print_added(context, options, was, is, papers);
                       context.out << changes_text(moved);
                   });
}

struct TopicsListOptions {
    std::string subject;
};

/// Parts and marks on a topic, over all papers of a subject but drawn ones, which hold copies.
struct TopicHolding {
    std::set<std::string> papers;
    std::size_t parts = 0;
    Marks marks{0};
};

std::map<std::string, TopicHolding> holdings_of(const Store& store, const std::string& subject) {
    std::map<std::string, TopicHolding> holdings;
    const std::vector<std::shared_ptr<const Paper>> papers = store.papers();
    const std::set<std::string> drawn = drawn_papers(papers, DrawnPapers::copies(store));
    for (const auto& paper : papers) {
        if (paper->subject() != subject || drawn.count(paper->id()) > 0)
            continue;
        for (const Part& part : paper->parts()) {
            TopicHolding& holding = holdings[part.topic];
            holding.papers.insert(paper->id());
            ++holding.parts;
            holding.marks += part.max;
        }
    }
    return holdings;
}

/// Below its parent, or with the parent's name where that stands elsewhere. `above` holds the topic right
/// above and those that it is a piece of, the outermost first.
std::string indented(const ListedTopic& listed, std::vector<std::string>& above) {
    while (!above.empty() && above.back() != listed.parent)
        above.pop_back();
    std::string text = std::string(2 * above.size(), ' ') + listed.topic +
                       (above.empty() && !listed.parent.empty() ? " (of " + listed.parent + ")" : "");
    above.push_back(listed.topic);
    return text;
}

void print_list(const Context& context, const Store& store, const std::string& subject,
                const TopicList& list) {
    std::map<std::string, TopicHolding> holdings = holdings_of(store, subject);
    context.out << context.heading("Topics of " + visible(subject)) << "\n";
    Table table({{"order", Table::Align::right},
                 {"topic", Table::Align::left_may_be_cut},
                 {"papers", Table::Align::right},
                 {"parts", Table::Align::right},
                 {"marks", Table::Align::right}});
    std::size_t place = 0;
    std::vector<std::string> above;
    for (const ListedTopic& listed : list.topics()) {
        const TopicHolding holding = holdings[listed.topic];
        holdings.erase(listed.topic);
        table.add_row({std::to_string(++place), indented(listed, above),
                       std::to_string(holding.papers.size()), std::to_string(holding.parts),
                       marks_number(holding.marks)});
    }
    context.out << table;
    const std::size_t without = holdings[""].parts;
    holdings.erase("");
    std::set<std::string> unlisted;
    for (const auto& [topic, holding] : holdings)
        unlisted.insert(topic);
    if (!unlisted.empty())
        context.out << text_line("Not in the list: " + unlisted_text(unlisted));
    if (without > 0)
        context.out << count_text(without, "part") << (without == 1 ? " has" : " have")
                    << " no topic. Next: inkturn topics of --subject " << shell_word(subject) << '\n';
}

void list_topics(const Context& context, const TopicsListOptions& options) {
    const Store store = context.store_to_read();
    std::map<std::string, TopicList> lists = TopicLists::all(store);
    if (!options.subject.empty())
        for (auto one = lists.begin(); one != lists.end();)
            one = one->first == options.subject ? std::next(one) : lists.erase(one);
    context.answer([&] { return json_of(lists); },
                   [&] {
                       if (lists.empty())
                           context.out << "No list of topics on file"
                                       << (options.subject.empty() ? "" : " for " + visible(options.subject))
                                       << ".\nNext: inkturn topics add LIST.csv --subject S\n";
                       for (const auto& [subject, list] : lists)
                           print_list(context, store, subject, list);
                   });
}

} // namespace

void add_topics_add(Command& topics) {
    auto options = std::make_shared<TopicsAddOptions>();
    Command command =
        topics.command("add", "Put a subject's topics on file: where their spelling is decided");
    command.argument(
        "FILE", options->file,
        "CSV, .xlsx or .ods with the columns topic and optionally order,parent; - reads standard "
        "input");
    const Option topic = command.option("--topic", options->topic, "T", "One topic, instead of a file");
    command.option("--parent", options->parent, "T", "The topic on the list that it is a piece of")
        .needs(topic);
    command.option("--subject", options->subject, "S", "The subject, such as pure").required();
    command.flag("--replace", options->replace, "Replace the whole list on file").excludes(topic);
    command.flag("--yes", options->yes,
                 "Spell the topics of papers on file as the list does where they are nearly the same");
    add_accept_option(command, options->accepted);
    options->csv.add_to(command);
    command.json();
    command.closing("Example:\n  inkturn topics add pure-topics.csv --subject pure\n"
                    "Topics on file that the file doesn't have stay, after its own.");
    command.runs(options, add_to_list);
}

void add_topics_list(Command& topics) {
    auto options = std::make_shared<TopicsListOptions>();
    Command command = topics.command("list", "Show the list of topics, and what of each is on file");
    command.option("--subject", options->subject, "S", "Of this subject (all)");
    command.json();
    command.closing("Example:\n  inkturn topics list --subject pure");
    command.runs(options, list_topics);
}

} // namespace inkturn
