#include "cli/lesson/lesson.hpp"
#include "cli/lesson/wish_file.hpp"

#include "cli/class/doubts_listed.hpp"
#include "cli/csv_options.hpp"
#include "cli/local_time.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/lesson/places.hpp"
#include "inkturn/store/lessons.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct PlacesOptions {
    std::string id;
    std::vector<std::string> codes;
    std::vector<std::string> topics;
    std::string remark;
    std::string on;
    std::string at;
    std::string file;
    std::vector<std::string> accepted;
    std::vector<std::string> never_came;
    bool all = false;
    bool leave_free = false;
    CsvOptionTexts csv;
};

/// When they asked: as typed, or now.
Moment time_asked(const Context& context, const PlacesOptions& options) {
    if (options.on.empty() && options.at.empty())
        return moment_of_today(context);
    const Day day = context.date_passed(options.on);
    const Moment at = local_moment(day, options.at.empty() ? Seconds(0) : parse_time_of_day(options.at));
    if (day > context.date_today())
        throw Error("--on " + iso(day) + " is after today");
    return at;
}

/// The wishes of a file, those that this lesson can meet: its topics, its day.
std::vector<PlaceAsked> asked_in_file(const Context& context, const Store& store,
                                      const PlacesOptions& options, const Lesson& lesson, Moment now,
                                      std::vector<std::string>& left_out) {
    std::vector<PlaceAsked> asked;
    for (const Wish& wish : wishes_in_file(context, store, {options.file, "", options.csv, options.accepted},
                                           "nothing was stored")) {
        const auto fit = wish_for(wish, lesson, asked_at(wish, now));
        if (fit)
            asked.push_back(*fit);
        else
            left_out.push_back(wish.candidate);
    }
    return asked;
}

void keep_and_show(const Context& context, Store& store, Store::Change& change, const Lesson& before,
                   const Lesson& lesson, const std::string& said) {
    const std::size_t moved = keep_lesson(context, change, before, lesson);
    change.commit();
    if (!context.json) {
        context.out << said;
        if (moved > 0)
            context.out << text_line("The lesson moved other work in the plans of " +
                                     count_text(moved, "candidate") + ".");
        if (!said.empty() || moved > 0)
            context.out << '\n';
    }
    show_lesson(context, store, lesson.id);
}

void ask(const Context& context, const PlacesOptions& options) {
    if (options.codes.empty() == options.file.empty())
        throw UsageError("name candidates, or a file with --from");
    Store store = context.store_to_write();
    Store::Change change(store);
    const Lesson before = lesson_on_file(store, options.id);
    Lesson lesson = before;
    const Moment at = time_asked(context, options);
    std::vector<std::string> topics = options.topics;
    std::sort(topics.begin(), topics.end());
    std::vector<PlaceAsked> all;
    std::vector<std::string> left_out;
    if (options.file.empty())
        for (const std::string& code : settled_codes(context, store, options.codes, options.accepted))
            all.push_back({code, at, topics, options.remark, PlaceState::asked});
    else
        all = asked_in_file(context, store, options, lesson, at, left_out);
    std::vector<std::string> codes;
    std::size_t changed = 0;
    for (const PlaceAsked& one : all) {
        codes.push_back(one.candidate);
        check_can_be_asked_for(lesson, local_day(one.at));
        changed += ask_for_place(lesson, one);
    }
    note_unknown(context, store, codes);
    std::string said =
        changed < all.size()
            ? text_line(count_text(all.size() - changed, "candidate") + " had asked so already.")
            : "";
    if (!left_out.empty())
        said += text_line("Left out here, as they want another topic or can't come that day: " +
                          visible(joined(left_out, ", ")) + ".");
    keep_and_show(context, store, change, before, lesson, said);
}

/// Places offered in other lessons at the same time, which somebody else could have.
std::string offers_left(const Store& store, const Lesson& lesson, const std::vector<std::string>& codes) {
    std::string text;
    const std::vector<Lesson> on_file = LessonsOnFile::all(store);
    for (const std::string& code : codes)
        for (const std::string& other : offered_elsewhere(lesson, code, on_file)) {
            std::string line = visible(code) + " was offered a place in lesson " + other;
            line.append(" at the same time: 'inkturn lesson decline ").append(other).append(" ");
            text += text_line(line.append(shell_word(code)).append("' frees it."));
        }
    return text;
}

/// Takes each place to a state.
void settle(const Context& context, const PlacesOptions& options, PlaceState to) {
    Store store = context.store_to_write();
    Store::Change change(store);
    const Lesson before = lesson_on_file(store, options.id);
    Lesson lesson = before;
    const std::vector<std::string> codes =
        options.all ? in_state(lesson, PlaceState::confirmed)
                    : settled_codes(context, store, options.codes, options.accepted);
    if (codes.empty())
        throw Error("nobody has confirmed a place in lesson " + lesson.id + ": name those who came");
    const Moment at = moment_of_today(context);
    for (const std::string& code : codes) {
        if (to == PlaceState::offered)
            check_is_not_elsewhere(lesson, code, LessonsOnFile::all(store));
        settle_place(lesson, code, to, context.date_today(), at);
    }
    note_unknown(context, store, codes);
    keep_and_show(context, store, change, before, lesson,
                  to == PlaceState::confirmed ? offers_left(store, lesson, codes) : "");
}

void offer(const Context& context, const PlacesOptions& options) {
    if (!options.codes.empty())
        return settle(context, options, PlaceState::offered);
    Store store = context.store_to_write();
    Store::Change change(store);
    const Lesson before = lesson_on_file(store, options.id);
    Lesson lesson = before;
    const std::vector<std::string> offered =
        offer_free_places(lesson, lost_by_those_who_asked(store, lesson), context.date_today(),
                          Lesson::max_places, elsewhere_on_file(store, lesson, context.date_today()));
    keep_and_show(context, store, change, before, lesson,
                  text_line(offered.empty() ? "Nothing to offer: no free place, or nobody waits who can come."
                                            : "Offered to " + visible(joined(offered, " and ")) + "."));
}

void confirm(const Context& context, const PlacesOptions& options) {
    settle(context, options, PlaceState::confirmed);
}

void decline(const Context& context, const PlacesOptions& options) {
    if (options.leave_free)
        return settle(context, options, PlaceState::declined);
    Store store = context.store_to_write();
    Store::Change change(store);
    const Lesson before = lesson_on_file(store, options.id);
    Lesson lesson = before;
    const std::vector<std::string> offered =
        decline_places(lesson, options.codes, lost_by_those_who_asked(store, lesson), context.date_today(),
                       moment_of_today(context), elsewhere_on_file(store, lesson, context.date_today()));
    keep_and_show(context, store, change, before, lesson,
                  offered.empty()
                      ? ""
                      : text_line("Offered to the next in line: " + visible(joined(offered, " and ")) + "."));
}

/// Corrects what was recorded.
void did_not_attend(const Context& context, const PlacesOptions& options) {
    Store store = context.store_to_write();
    Store::Change change(store);
    const Lesson before = lesson_on_file(store, options.id);
    Lesson lesson = before;
    for (const std::string& code : options.never_came)
        take_back_attendance(lesson, code);
    keep_and_show(context, store, change, before, lesson, "");
}

void attended(const Context& context, const PlacesOptions& options) {
    if (!options.never_came.empty()) {
        if (!options.codes.empty() || options.all)
            throw UsageError("--not corrects what was recorded: use it without other codes or --all");
        return did_not_attend(context, options);
    }
    if (options.codes.empty() != options.all)
        throw UsageError("name those who came, or use --all for everyone who confirmed");
    settle(context, options, PlaceState::attended);
}

Command add_one(Command& group, const std::shared_ptr<PlacesOptions>& options, const std::string& name,
                const std::string& help, const std::string& example) {
    Command command = group.command(name, help);
    command.argument("ID", options->id, "The lesson").required();
    command.json();
    command.closing("Example:\n  inkturn lesson " + example);
    return command;
}

} // namespace

void add_lesson_places(Command& group) {
    auto options = std::make_shared<PlacesOptions>();

    Command asks = add_one(group, options, "ask", "Record who asks for a place",
                           "ask vectors-1 K02 K05 --remark 'lost since the mock'\n"
                           "  inkturn lesson ask vectors-1 --from wishes.csv");
    asks.argument("CODE", options->codes, "Who asks; one who is not on file is taken too");
    asks.option("--topic", options->topics, "T...", "Which of the lesson's topics they want (all)");
    asks.option("--remark", options->remark, "TEXT", "What they say");
    asks.option("--on", options->on, "D", "The day they asked (today)");
    asks.option("--at", options->at, "TIME", "The time of day they asked (now)");
    asks.option("--from", options->file, "FILE", "A file of wishes, or the filled-in form");
    options->csv.add_to(asks);
    add_accept_option(asks, options->accepted);
    asks.runs(options, ask);

    Command offers =
        add_one(group, options, "offer", "Offer the free places to the next in line", "offer vectors-1");
    offers.argument("CODE", options->codes, "Offer to these instead, whether they asked or not");
    add_accept_option(offers, options->accepted);
    offers.runs(options, offer);

    Command confirms = add_one(group, options, "confirm", "Record who is coming", "confirm vectors-1 K02");
    confirms.argument("CODE", options->codes, "Who is coming").required();
    add_accept_option(confirms, options->accepted);
    confirms.runs(options, confirm);

    Command declines =
        add_one(group, options, "decline", "Record who isn't coming, and offer the place to the next in line",
                "decline vectors-1 K05");
    declines.argument("CODE", options->codes, "Who isn't coming").required();
    declines.flag("--leave-free", options->leave_free, "Don't offer the place to the next in line");
    declines.runs(options, decline);

    Command attends =
        add_one(group, options, "attended", "Record who came: unseen questions are planned two weeks later",
                "attended vectors-1 --all");
    attends.argument("CODE", options->codes, "Who came, whether they had asked or not");
    attends.flag("--all", options->all, "Everyone who confirmed");
    attends.option("--not", options->never_came, "CODE...", "Who was recorded as having come and didn't");
    add_accept_option(attends, options->accepted);
    attends.runs(options, attended);
}

} // namespace inkturn
