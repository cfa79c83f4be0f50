#include "cli/class/class.hpp"
#include "cli/class/doubts_listed.hpp"
#include "cli/csv_options.hpp"
#include "cli/lesson/lesson.hpp"
#include "cli/lesson/no_seat.hpp"
#include "cli/lesson/wish_file.hpp"
#include "cli/outlooks.hpp"
#include "cli/output_file.hpp"
#include "cli/student/topics.hpp"
#include "cli/subjects.hpp"
#include "cli/terminal.hpp"

#include "exchange/csv/lesson.hpp"
#include "exchange/json/seats.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/seats/lost_marks.hpp"
#include "inkturn/store/lessons.hpp"
#include "view/text/diagnosis.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <functional>
#include <iostream>
#include <map>
#include <set>
#include <sstream>

namespace inkturn {
namespace {

struct SeatsOptions {
    std::string lessons;
    std::vector<std::string> dates;
    std::vector<std::string> must;
    std::vector<std::string> never;
    bool csv_invitations = false;
    bool csv_register = false;
    OutputOptions output;
    std::string keep;
    std::string places;
    std::string topics_each = "1";
    std::string each = "1";
    std::string wishes;
    std::string of_class;
    std::string subject;
    std::string measure = "hour";
    GainOption gain;
    CsvOptionTexts csv;
    std::vector<std::string> accepted;
};

/// The dates, or as many lessons as are asked for on no date yet.
SeatsRequest asked_in(const Context& context, const SeatsOptions& options) {
    const auto number = [](const std::string& text, int most, const std::string& what) {
        return static_cast<std::size_t>(parse_whole_number(text, 1, most, what));
    };
    if (options.lessons.empty() && options.dates.empty())
        throw UsageError("say how many lessons with --lessons, or on which days with --on");
    SeatsRequest request{options.dates.size(), number(options.places, 10'000, "--places"),
                         number(options.topics_each, 64, "--topics-each"),
                         number(options.each, 64, "--each")};
    for (const std::string& date : options.dates) {
        request.dates.push_back(context.date_ahead(date, !options.keep.empty()));
        check_is_ahead(request.dates.back(), context.date_today());
    }
    std::sort(request.dates.begin(), request.dates.end());
    const auto twice = std::adjacent_find(request.dates.begin(), request.dates.end());
    if (twice != request.dates.end())
        context.question("--on names " + day_text(*twice) + " for more than one lesson", "Is that meant?",
                         "give each lesson a day of its own", !options.keep.empty());
    if (!options.lessons.empty())
        request.lessons = number(options.lessons, 64, "--lessons");
    if (!request.dates.empty() && request.dates.size() != request.lessons)
        throw Error("--on names " + count_text(request.dates.size(), "day") + " for " +
                    count_text(request.lessons, "lesson") + ": give each lesson its day");
    if (request.lessons > 64)
        throw Error("--on names more than 64 lessons");
    return request;
}

SeatMeasure measure_of(const SeatsOptions& options) {
    const auto measure = seat_measure_named(options.measure);
    if (!measure)
        throw Error("--weigh '" + options.measure + "': use hour or marks");
    return *measure;
}

/// What candidates lost, and how many candidates' marks what an hour wins back rests on.
struct LostOnFile {
    LostMarks lost;
    std::size_t candidates;
    std::set<std::string> with_marks; ///< codes of those who have any that count, whatever their topics
};

LostOnFile lost_on_file(const Context& context, const Store& store, const SeatsOptions& options,
                        const std::vector<std::string>& codes, Gain gain) {
    const Outlooks outlooks(context, store, codes, options.of_class);
    std::vector<CandidateLosses> losses;
    std::size_t candidates = 0;
    std::set<std::string> with_marks;
    ProgressLine progress(context.err, "inkturn: weighing topics", std::nullopt, context.quiet);
    for (const std::string& code : codes) {
        progress.show_piece("candidate", losses.size() + 1, codes.size());
        const TopicsFound found = outlooks.topics_of({code}, options.subject, gain);
        losses.push_back({code, losses_by_topic(found.topics)});
        if (!found.topics.empty())
            with_marks.insert(code);
        candidates = std::max(candidates, found.candidates);
    }
    return {lost_marks(losses), candidates, std::move(with_marks)};
}

/// All that seats are planned from.
struct SeatsFrom {
    SeatsRequest request;
    SeatMeasure measure;
    Gain gain;
    std::optional<std::vector<Wish>> wishes;
    LostOnFile on_file;
    std::vector<SeatTerms> terms; ///< by candidate
    LostMarks wanted;             ///< what the wishes leave of what was lost

    SeatsBasis basis() const { return {on_file.lost, measure, request, terms, wishes, on_file.with_marks}; }
};

/// Those who may be seated: of the lesson, or all on file; and who asked or must come, on file or not.
std::vector<std::string> codes_to_seat(const Store& store, const SeatsOptions& options,
                                       const std::optional<std::vector<Wish>>& wishes) {
    const std::vector<std::string> members = codes_of(store, options.of_class);
    std::set<std::string> codes(members.begin(), members.end());
    if (wishes)
        for (const Wish& wish : *wishes)
            codes.insert(wish.candidate);
    codes.insert(options.must.begin(), options.must.end());
    return {codes.begin(), codes.end()};
}

std::vector<SeatTerms> terms_of(const SeatsOptions& options, const SeatsFrom& from) {
    std::vector<SeatTerms> terms;
    for (const std::string& code : from.on_file.lost.candidates) {
        const auto named = [&](const std::vector<std::string>& codes) {
            return std::find(codes.begin(), codes.end(), code) != codes.end();
        };
        terms.push_back({named(options.must), named(options.never), {}});
        if (terms.back().must && terms.back().never)
            throw Error("candidate " + code + " is named by both --must and --not");
        if (from.wishes)
            for (const Wish& wish : *from.wishes)
                if (wish.candidate == code)
                    terms.back().dates = wish.dates;
    }
    return terms;
}

void check_musts(const SeatsFrom& from) {
    std::vector<std::string> codes;
    for (const std::size_t candidate : musts_without_place(from.request, from.terms))
        codes.push_back(from.on_file.lost.candidates[candidate]);
    if (!codes.empty())
        throw Error("--must: there is no place left for " + joined(codes, ", ") +
                    (from.request.dates.empty() ? "" : " on a day on which they can come") +
                    "; give more places or lessons, or name fewer");
}

/// The codes after --must: of a class's lessons members alone, or somebody not on file yet.
std::vector<std::string> codes_that_must(const Context& context, const Store& store,
                                         const SeatsOptions& options) {
    std::vector<std::string> codes = settled_codes(context, store, options.must, options.accepted);
    const std::vector<std::string> members = codes_of(store, options.of_class);
    for (const std::string& code : codes) {
        if (std::find(members.begin(), members.end(), code) != members.end())
            continue;
        if (store.has_candidate(code))
            throw Error("--must: candidate " + code + " is not in class " + options.of_class +
                        ": add them with 'inkturn class add " + shell_word(options.of_class) + " " +
                        shell_word(code) + "', or leave out --class");
        context.err << "inkturn: note: " << visible(code)
                    << " (--must) is not on file: seated as a candidate with no marks yet\n";
    }
    return codes;
}

/// The codes after --not; one who would have had no seat anyway does no harm.
std::vector<std::string> codes_left_out(const Context& context, const Store& store,
                                        const SeatsOptions& options) {
    std::vector<std::string> codes = settled_codes(context, store, options.never, options.accepted);
    const std::vector<std::string> members = codes_of(store, options.of_class);
    for (const std::string& code : codes)
        if (std::find(members.begin(), members.end(), code) == members.end())
            context.err << "inkturn: note: " << visible(code) << " (--not) is not "
                        << (options.of_class.empty() ? "on file" : "in class " + visible(options.of_class))
                        << '\n';
    return codes;
}

SeatsFrom seats_from(const Context& context, const Store& store, SeatsOptions options) {
    options.must = codes_that_must(context, store, options);
    options.never = codes_left_out(context, store, options);
    SeatsFrom from{asked_in(context, options), measure_of(options), options.gain.read(), {}, {}, {}, {}};
    check_subject_filter(context, store, options.subject);
    if (!options.wishes.empty())
        from.wishes =
            wishes_in_file(context, store, {options.wishes, options.of_class, options.csv, options.accepted},
                           "nothing was planned");
    from.on_file =
        lost_on_file(context, store, options, codes_to_seat(store, options, from.wishes), from.gain);
    from.terms = terms_of(options, from);
    check_musts(from);
    from.wanted = from.on_file.lost;
    if (from.wishes)
        keep_wishes(from.wanted, *from.wishes);
    return from;
}

std::string won_marks_text(SeatWeight hundredths) {
    const int tenths = (hundredths.count() + 5) / 10;
    return std::to_string(tenths / 10) + "." + std::to_string(tenths % 10);
}

/// The weight in the measure's unit: marks an hour with one decimal, or whole marks.
std::string weight_text(SeatWeight weight, SeatMeasure measure) {
    return measure == SeatMeasure::hour ? won_marks_text(weight) : std::to_string(weight.count());
}

std::string won_text(SeatWeight weight, SeatMeasure measure, Gain gain) {
    return measure == SeatMeasure::hour
               ? won_marks_text(weight) + " marks a paper won back, if an hour teaches " +
                     std::to_string(gain.percent()) + " of every 100 marks lost on its topics."
               : "the candidates seated have lost " +
                     count_text(static_cast<std::size_t>(weight.count()), "mark") + " on these topics.";
}

std::string seat_text(const SeatLosses& seat, SeatMeasure measure) {
    const std::string marks = std::to_string(seat.marks.count());
    return measure == SeatMeasure::hour ? won_marks_text(seat.won_in_an_hour) + " (" + marks + ")" : marks;
}

std::string class_text(const SeatLosses& sum, SeatMeasure measure) {
    return measure == SeatMeasure::hour ? won_marks_text(sum.won_in_an_hour) + " marks a paper, " +
                                              std::to_string(sum.marks.count()) + " lost"
                                        : count_text(static_cast<std::size_t>(sum.marks.count()), "mark");
}

void print_lesson(const Context& context, std::size_t number, const SeatPlan::SeatedLesson& one,
                  const std::vector<SeatLosses>& lost_here, const LostMarks& lost, std::size_t places,
                  SeatMeasure measure) {
    std::vector<std::string> topics;
    for (const std::size_t topic : one.topics)
        topics.push_back(visible(lost.topics[topic]));
    std::vector<std::string> seats;
    for (std::size_t i = 0; i < one.seats.size(); ++i)
        seats.push_back(visible(lost.candidates[one.seats[i].candidate]) + " " +
                        seat_text(lost_here[i], measure));
    context.out << '\n'
                << context.heading("Lesson " + std::to_string(number) +
                                   (one.date ? ", " + day_text(*one.date) : ""))
                << ": ";
    if (one.seats.empty()) {
        context.out << "not needed\n";
        return;
    }
    context.out << wrapped_list(topics, text_width() - (one.date ? 30 : 12), 2) << '\n'
                << "  " << one.seats.size() << " of " << places << " places, "
                << class_text(total_losses({lost_here}), measure) << '\n'
                << "  " << wrapped_list(seats, text_width() - 2, 2) << '\n';
}

bool any_lost(const LostMarks& lost) {
    return std::any_of(lost.marks.begin(), lost.marks.end(), [](const std::vector<Marks>& row) {
        return std::any_of(row.begin(), row.end(), [](Marks marks) { return marks > Marks(0); });
    });
}

void print_nothing(const Context& context, const LostMarks& lost) {
    if (any_lost(lost))
        context.out << "There's nothing to win back: hardly any marks are likely to be lost on these\n"
                       "topics in the next paper.\n";
    else
        context.out << "There's nothing to win back: none of the marks that count here were lost on a\n"
                       "topic. Where parts have none yet, inkturn topics of PAPER gives them theirs.\n";
}

std::string key_text(const SeatsFrom& from) {
    const std::string judgement = " Marks don't say who needs help most: that's your judgement.";
    if (from.measure == SeatMeasure::marks)
        return text_line("Beside each candidate: the marks lost on the lesson's topics so far." + judgement);
    return text_line("Beside each candidate: the marks a paper won back if an hour teaches " +
                     std::to_string(from.gain.percent()) +
                     " of every 100 marks lost on each of the lesson's topics, which is assumed (--gain); in "
                     "brackets, the marks lost on them so far. What is won back rests on " +
                     marks_of_text(from.on_file.candidates) + "." + judgement);
}

/// Everybody without a seat, by reason: those who might have had one first.
void print_without_seat(const Context& context, const SeatPlan& plan, const SeatsFrom& from) {
    std::map<NoSeat, std::vector<std::string>, std::greater<>> by_reason;
    for (const WithoutSeat& one : without_seat(plan, from.basis()))
        by_reason[one.why].push_back(visible(one.candidate));
    if (!by_reason.empty())
        context.out << "\nNo seat:\n";
    for (const auto& [why, codes] : by_reason)
        context.out << "  "
                    << wrapped(reason_text(why, from.wishes.has_value()) + ": " + joined(codes, ", "),
                               text_width() - 2, 4)
                    << '\n';
}

std::size_t seats_in(const SeatPlan& plan) {
    std::size_t seats = 0;
    for (const SeatPlan::SeatedLesson& one : plan.lessons)
        seats += one.seats.size();
    return seats;
}

void print(const Context& context, const SeatPlan& plan, const SeatsFrom& from) {
    if (seats_in(plan) == 0) {
        print_nothing(context, from.wanted);
        print_without_seat(context, plan, from);
        context.out << (any_lost(from.wanted)
                            ? "Next: run it again with --weigh marks to go by the marks lost\n"
                            : "Next: inkturn paper list\n");
        return;
    }
    context.out << context.heading("Lessons") << ": "
                << wrapped(won_text(plan.weight, from.measure, from.gain), text_width() - 9, 2) << '\n'
                << (plan.bound == plan.weight
                        ? "No plan does better.\n"
                        : wrapped(
                              "No plan does better than " + weight_text(plan.bound, from.measure) +
                                  "; the search stopped before it could tell whether a better plan exists.",
                              text_width()) +
                              "\n");
    const std::vector<std::vector<SeatLosses>> by_seat = losses_by_seat(plan, from.wanted);
    for (std::size_t i = 0; i < plan.lessons.size(); ++i)
        print_lesson(context, i + 1, plan.lessons[i], by_seat[i], from.wanted, from.request.places,
                     from.measure);
    print_without_seat(context, plan, from);
    context.out << '\n' << key_text(from);
}

/// A row a seat, for letters or a register.
std::vector<SeatRow> rows_of(const SeatPlan& plan, const SeatsFrom& from) {
    std::vector<SeatRow> rows;
    const std::vector<std::vector<SeatLosses>> by_seat = losses_by_seat(plan, from.wanted);
    for (std::size_t i = 0; i < plan.lessons.size(); ++i) {
        std::vector<std::string> topics;
        for (const std::size_t topic : plan.lessons[i].topics)
            topics.push_back(from.wanted.topics[topic]);
        for (std::size_t j = 0; j < plan.lessons[i].seats.size(); ++j)
            rows.push_back({std::to_string(i + 1),
                            plan.lessons[i].date,
                            {},
                            {},
                            topics,
                            from.wanted.candidates[plan.lessons[i].seats[j].candidate],
                            {},
                            by_seat[i][j].marks});
    }
    return rows;
}

/// The lessons of the plan on file: those seated are offered their places, and who has none for want of room
/// waits.
std::vector<Lesson> lessons_of(const SeatPlan& plan, const SeatsFrom& from, const SeatsOptions& options,
                               Moment now) {
    std::vector<Lesson> lessons;
    for (const SeatPlan::SeatedLesson& one : plan.lessons) {
        if (one.seats.empty())
            continue;
        Lesson lesson{options.keep + "-" + std::to_string(lessons.size() + 1),
                      *one.date,
                      std::nullopt,
                      std::chrono::hours{1},
                      options.subject,
                      {},
                      from.request.places,
                      PlaceOrder::marks};
        for (const std::size_t topic : one.topics)
            lesson.topics.push_back(from.wanted.topics[topic]);
        std::set<std::string> seated;
        for (const SeatPlan::Seat& seat : one.seats)
            seated.insert(from.wanted.candidates[seat.candidate]);
        for (const std::string& code : seated)
            lesson.asked.push_back(place_of(wish_of(from.wishes, code), lesson, now, PlaceState::offered));
        for (const WithoutSeat& without : without_seat(plan, from.basis()))
            if (without.why == NoSeat::no_room)
                if (wish_for(wish_of(from.wishes, without.candidate), lesson, now))
                    lesson.asked.push_back(
                        place_of(wish_of(from.wishes, without.candidate), lesson, now, PlaceState::asked));
        lessons.push_back(std::move(lesson));
    }
    return lessons;
}

void keep(const Context& context, Store& store, const std::vector<Lesson>& lessons, bool is_csv_alone) {
    Store::Change change(store);
    LessonsOnFile on_file(change);
    for (const Lesson& lesson : lessons)
        on_file.add(lesson);
    change.commit();
    if (context.json || is_csv_alone || lessons.empty())
        return;
    std::vector<std::string> ids;
    for (const Lesson& lesson : lessons)
        ids.push_back(lesson.id);
    context.out << text_line("On file: " + joined(ids, " and ") +
                             ", with the places offered; give each its time with 'inkturn lesson change'.");
}

void check_options(const SeatsOptions& options) {
    if (!options.keep.empty() && options.dates.empty())
        throw UsageError("--keep needs the days of the lessons: name them with --on");
    if (!options.output.file.empty() && !options.csv_invitations && !options.csv_register)
        throw UsageError("--output needs --csv or --register");
}

void run(const Context& context, const SeatsOptions& options) {
    check_options(options);
    const bool is_csv = options.csv_invitations || options.csv_register;
    Store store = options.keep.empty() ? context.store_to_read() : context.store_to_write();
    const SeatsFrom from = seats_from(context, store, options);
    const SeatPlan plan = plan_seats(from.request, from.wanted.rows_by(from.measure), from.terms);
    std::vector<Lesson> lessons;
    if (!options.dates.empty())
        lessons = lessons_of(plan, from, options, moment_of_today(context));
    if (!options.keep.empty())
        for (Lesson& lesson : lessons)
            if (lesson.subject.empty())
                lesson.subject = subject_of_topics(store, lesson.topics);
    if (is_csv) {
        std::ostringstream csv;
        if (options.csv_register)
            write_register(csv, rows_of(plan, from));
        else
            write_invitations(csv, rows_of(plan, from));
        write_csv_output(context, options.output, csv.str());
    } else {
        context.answer([&] { return json_of(plan, from.wanted, from.basis()); },
                       [&] { print(context, plan, from); });
    }
    (is_csv || context.json ? context.err : context.out)
        << days_off_text(store, lessons, context.date_today());
    if (!options.keep.empty())
        keep(context, store, lessons, is_csv && options.output.file.empty());
    if (!context.json && !is_csv && seats_in(plan) > 0)
        context.out << (!options.keep.empty() ? "Next: inkturn lesson show " + lessons.front().id
                                              : std::string("Next: run it again with ") +
                                                    (options.dates.empty() ? "--on D... " : "") +
                                                    "--keep ID to put the lessons on file")
                    << '\n';
}

} // namespace

void add_lesson_seats(Command& group) {
    auto options = std::make_shared<SeatsOptions>();
    Command seats = group.command("seats", "Plan lessons: who sits in which, and on what topics");
    seats.option("--lessons", options->lessons, "K", "How many lessons");
    seats.option("--on", options->dates, "D...", "The day of each, if they are known");
    seats.option("--places", options->places, "P", "Places in each").required();
    seats.option("--topics-each", options->topics_each, "T", "The most topics in one lesson (1)");
    seats.option("--each", options->each, "N", "The most lessons for one candidate (1)");
    seats.option("--wishes", options->wishes, "FILE",
                 "Seat only those in this file, on the topics and days they name; a filled-in form will do");
    seats.option("--must", options->must, "CODE...", "Seat these first, whatever it wins back");
    seats.option("--not", options->never, "CODE...", "Seat none of these");
    add_class_looked_at(seats, options->of_class, "Only candidates in this class (all on file)");
    seats.option("--subject", options->subject, "S", "Only papers of this subject (all)");
    seats.option("--weigh", options->measure, "hour|marks",
                 "What to seat by: the marks a paper that an hour wins back, or the marks lost (hour)");
    options->gain.add_to(seats);
    options->csv.add_to(seats);
    add_accept_option(seats, options->accepted);
    seats.option("--keep", options->keep, "ID",
                 "Put the lessons on file as ID-1, ID-2 and offer their places");
    const Option csv =
        seats.flag("--csv", options->csv_invitations, "Print CSV of invitations, a row for each seat");
    Option list = seats.flag("--register", options->csv_register,
                             "Print CSV of a register to tick, a row for each seat");
    list.excludes(csv);
    options->output.add_to(seats, "Write that CSV to a file");
    Option json = seats.json();
    json.excludes(csv);
    json.excludes(list);
    seats.closing(
        "Examples:\n  inkturn lesson seats --lessons 3 --places 8 --topics-each 2\n"
        "  inkturn lesson seats --on 2026-12-05 2026-12-08 --places 8 --wishes wishes.csv --keep december");
    seats.runs(options, run);
}

} // namespace inkturn
