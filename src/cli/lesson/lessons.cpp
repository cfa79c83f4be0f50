#include "cli/lesson/lesson.hpp"
#include "cli/lesson/wish_file.hpp"

#include "exchange/csv/lesson.hpp"
#include "exchange/json/lesson.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/retry/availability.hpp"
#include "inkturn/store/lessons.hpp"
#include "view/text/lesson.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>
#include <sstream>

namespace inkturn {
namespace {

struct LessonOptions {
    std::string id;
    std::string on;
    std::string at;
    std::string minutes;
    std::string subject;
    std::vector<std::string> topics;
    std::string places;
    std::string order;
    OutputOptions output;
};

/// A topic that no paper has may be a slip: refused if one is alike, else noted.
void question_topics(const Context& context, const std::vector<std::string>& known,
                     const std::vector<std::string>& topics) {
    for (const std::string& topic : topics) {
        if (std::find(known.begin(), known.end(), topic) != known.end())
            continue;
        if (const auto nearest = nearest_name(topic, known))
            throw Error("no paper on file has the topic '" + topic + "'; did you mean '" + *nearest + "'?");
        context.err << "inkturn: no paper on file has the topic '" << visible(topic)
                    << "', so nobody has marks on it\n";
    }
}

void sort_topics(std::vector<std::string>& topics) {
    std::sort(topics.begin(), topics.end());
    topics.erase(std::unique(topics.begin(), topics.end()), topics.end());
}

/// Takes over what was typed.
void take_options(const Context& context, const Store& store, const LessonOptions& options, Lesson& lesson) {
    if (!options.on.empty())
        lesson.day = context.date_ahead(options.on, true);
    if (!options.at.empty())
        lesson.start = parse_time_of_day(options.at);
    if (!options.minutes.empty())
        lesson.duration = parse_minutes_of_day(options.minutes);
    if (!options.places.empty())
        lesson.places = static_cast<std::size_t>(
            parse_whole_number(options.places, 1, static_cast<int>(Lesson::max_places), "--places"));
    if (!options.order.empty()) {
        const auto order = place_order_named(options.order);
        if (!order)
            throw Error("--order '" + options.order + "': use asked or marks");
        lesson.order = *order;
    }
    if (!options.topics.empty()) {
        lesson.topics = options.topics;
        sort_topics(lesson.topics);
        question_topics(context, topics_on_file(store), lesson.topics);
    }
    if (!options.subject.empty())
        lesson.subject = options.subject;
    else if (!options.topics.empty())
        lesson.subject = subject_of_topics(store, lesson.topics);
    check_lesson(lesson);
}

void add(const Context& context, const LessonOptions& options) {
    Store store = context.store_to_write();
    Store::Change change(store);
    Lesson lesson{options.id, context.date_today(), std::nullopt, std::chrono::hours{1}, "", {}};
    take_options(context, store, options, lesson);
    check_is_ahead(lesson.day, context.date_today());
    LessonsOnFile(change).add(lesson);
    change.commit();
    show_lesson(context, store, lesson.id);
}

/// Those who asked for topics of which none is left.
std::string without_topics_text(const Lesson& before, const Lesson& after) {
    std::vector<std::string> codes;
    for (std::size_t i = 0; i < before.asked.size(); ++i)
        if (!before.asked[i].topics.empty() && after.asked[i].topics.empty())
            codes.push_back(before.asked[i].candidate);
    return codes.empty() ? ""
                         : text_line(visible(joined(codes, " and ")) +
                                     " asked for topics that the lesson is no longer on: ask them again.") +
                               '\n';
}

void change_one(const Context& context, const LessonOptions& options) {
    Store store = context.store_to_write();
    Store::Change change(store);
    const Lesson before = lesson_on_file(store, options.id);
    Lesson lesson = before;
    take_options(context, store, options, lesson);
    if (!options.on.empty())
        check_is_ahead(lesson.day, context.date_today());
    drop_topics_gone(lesson);
    keep_lesson(context, change, before, lesson);
    change.commit();
    if (!context.json)
        context.out << without_topics_text(before, lesson);
    show_lesson(context, store, lesson.id);
}

void print_lessons(const Context& context, const std::vector<Lesson>& lessons) {
    if (lessons.empty()) {
        context.out << "No lessons on file. Next: inkturn lesson add ID --on D --topic T --places N\n";
        return;
    }
    Table table({{"lesson", Table::Align::left_may_be_cut},
                 {"day"},
                 {"at", Table::Align::left, true},
                 {"places", Table::Align::right},
                 {"free", Table::Align::right},
                 {"asked", Table::Align::right},
                 {"come", Table::Align::right},
                 {"topics", Table::Align::left_may_be_cut}});
    for (const Lesson& lesson : lessons)
        table.add_row({lesson.id, day_text(lesson.day), lesson.start ? clock_text(*lesson.start) : "",
                       std::to_string(lesson.places), std::to_string(free_places(lesson)),
                       std::to_string(lesson.asked.size()), std::to_string(those_who_come(lesson).size()),
                       topics_text(lesson.topics)});
    const auto ahead = std::find_if(lessons.begin(), lessons.end(),
                                    [&](const Lesson& lesson) { return lesson.day >= context.date_today(); });
    context.out << table << "\nNext: inkturn lesson show "
                << (ahead == lessons.end() ? lessons.back() : *ahead).id << '\n';
}

void list(const Context& context, const Store& store) {
    const std::vector<Lesson> lessons = LessonsOnFile::all(store);
    context.answer([&] { return json_of(lessons); }, [&] { print_lessons(context, lessons); });
}

void remove(const Context& context, const LessonOptions& options) {
    Store store = context.store_to_write();
    Store::Change change(store);
    const Lesson lesson = lesson_on_file(store, options.id);
    keep_lesson(context, change, lesson, std::nullopt);
    change.commit();
    const std::string who_asked =
        lesson.asked.empty() ? "nobody" : count_text(lesson.asked.size(), "candidate");
    if (!context.json)
        context.out << text_line("Removed lesson " + lesson.id + ", which " + who_asked +
                                 " had asked for. If it is in a calendar, write that calendar again to "
                                 "cancel it.")
                    << '\n';
    list(context, store);
}

void write_letters(const Context& context, const LessonOptions& options) {
    const Store store = context.store_to_read();
    const Lesson lesson = lesson_on_file(store, options.id);
    std::ostringstream csv;
    write_invitations(csv, seat_rows(lesson, {PlaceState::offered, PlaceState::confirmed},
                                     lost_by_those_who_asked(store, lesson)));
    write_csv_output(context, options.output, csv.str());
}

void write_tick_list(const Context& context, const LessonOptions& options) {
    const Store store = context.store_to_read();
    const Lesson lesson = lesson_on_file(store, options.id);
    std::ostringstream csv;
    write_register(csv,
                   seat_rows(lesson, {PlaceState::offered, PlaceState::confirmed, PlaceState::attended}, {}));
    write_csv_output(context, options.output, csv.str());
}

void add_facts(Command& command, LessonOptions& options) {
    command.option("--at", options.at, "TIME", "When it begins, such as 16:00");
    command.option("--minutes", options.minutes, "M", "How long it takes (60)");
    command.option("--subject", options.subject, "S",
                   "Of the topics, if papers of several subjects have them");
    command.option(
        "--order", options.order, "asked|marks",
        "Who is offered a place first: who asked first, or who lost most marks on what they want (asked)");
}

} // namespace

void add_lesson_lists(Command& group) {
    auto options = std::make_shared<LessonOptions>();

    Command add_one = group.command("add", "Plan a lesson");
    add_one.argument("ID", options->id, "A name for it: lower-case letters, digits, . _ -").required();
    add_one.option("--on", options->on, "D", "Its day").required();
    add_one.option("--topic", options->topics, "T...", "Its topics, as the papers name them").required();
    add_one.option("--places", options->places, "P", "How many can come").required();
    add_facts(add_one, *options);
    add_one.json();
    add_one.closing(
        "Example:\n  inkturn lesson add vectors-1 --on 2026-12-05 --at 16:00 --topic vectors --places 8");
    add_one.runs(options, add);

    Command list_all = group.command("list", "List the lessons on file");
    list_all.json();
    list_all.closing("Example:\n  inkturn lesson list");
    list_all.runs([](const Context& context) { list(context, context.store_to_read()); });

    Command show = group.command("show", "Show who asked for a lesson and what came of it");
    show.argument("ID", options->id, "The lesson").required();
    show.json();
    show.closing("Example:\n  inkturn lesson show vectors-1");
    show.runs(
        [options](const Context& context) { show_lesson(context, context.store_to_read(), options->id); });

    Command invitations = group.command("invitations", "CSV of those who have a place or are offered one");
    invitations.argument("ID", options->id, "The lesson").required();
    options->output.add_to(invitations, "Write it to a file");
    invitations.closing("Example:\n  inkturn lesson invitations vectors-1 -o letters.csv");
    invitations.runs(options, write_letters);

    Command tick_list = group.command("register", "CSV of those who are coming, to tick on the day");
    tick_list.argument("ID", options->id, "The lesson").required();
    options->output.add_to(tick_list, "Write it to a file");
    tick_list.closing("Example:\n  inkturn lesson register vectors-1 -o register.csv");
    tick_list.runs(options, write_tick_list);

    Command change = group.command("change", "Move a lesson, or change its time, topics or places");
    change.argument("ID", options->id, "The lesson").required();
    change.option("--on", options->on, "D", "Its new day");
    change.option("--topic", options->topics, "T...", "All its topics");
    change.option("--places", options->places, "P", "How many can come");
    add_facts(change, *options);
    change.json();
    change.closing("Example:\n  inkturn lesson change vectors-1 --on 2026-12-12");
    change.runs(options, change_one);

    Command remove_one = group.command("remove", "Remove a lesson, with the list of who asked for it");
    remove_one.argument("ID", options->id, "The lesson").required();
    remove_one.json();
    remove_one.closing("Example:\n  inkturn lesson remove vectors-1");
    remove_one.runs(options, remove);
}

} // namespace inkturn
