#include "cli/class/class.hpp"
#include "cli/csv_options.hpp"
#include "cli/outlooks.hpp"
#include "cli/student/topics.hpp"
#include "cli/subjects.hpp"

#include "exchange/csv/wishes.hpp"
#include "exchange/json/seats.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/seats/lost_marks.hpp"
#include "view/text/diagnosis.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct SeatsOptions {
    std::string classes;
    std::string places;
    std::string topics_each = "1";
    std::string each = "1";
    std::string wishes;
    std::string of_class;
    std::string subject;
    std::string measure = "hour";
    GainOption gain;
    CsvOptionTexts csv;
};

SeatsRequest asked_in(const SeatsOptions& options) {
    const auto number = [](const std::string& text, int most, const std::string& what) {
        return static_cast<std::size_t>(parse_whole_number(text, 1, most, what));
    };
    return {number(options.classes, 64, "--classes"), number(options.places, 10'000, "--places"),
            number(options.topics_each, 64, "--topics-each"), number(options.each, 64, "--each")};
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
};

LostOnFile lost_on_file(const Store& store, const SeatsOptions& options, Gain gain) {
    const std::vector<std::string> codes = codes_of(store, options.of_class);
    const Outlooks outlooks(store, codes);
    std::vector<CandidateLosses> losses;
    std::size_t candidates = 0;
    for (const std::string& code : codes) {
        const TopicsFound found = outlooks.topics_of({code}, options.subject, gain);
        losses.push_back({code, losses_by_topic(found.topics)});
        candidates = std::max(candidates, found.candidates);
    }
    return {lost_marks(losses), candidates};
}

std::vector<Wish> read_wishes(const Context& context, const SeatsOptions& options, const LostMarks& lost) {
    const InputFile file(options.wishes, context.in);
    ProblemList problems;
    const auto rows = options.csv.rows_of(file);
    std::vector<Wish> wishes = read_wishes_rows(
        *rows, {{lost.candidates.begin(), lost.candidates.end()}, {lost.topics.begin(), lost.topics.end()}},
        problems);
    refuse_problems(context, file.name(), problems, "nothing was planned");
    return wishes;
}

std::string won_marks_text(SeatWeight hundredths) {
    const int tenths = (hundredths.count() + 5) / 10;
    return std::to_string(tenths / 10) + "." + std::to_string(tenths % 10);
}

/// The weight in the measure's unit: marks an hour with one decimal, or whole marks.
std::string weight_text(SeatWeight weight, SeatMeasure measure) {
    return measure == SeatMeasure::hour ? won_marks_text(weight) : std::to_string(weight.count());
}

std::string won_text(SeatWeight weight, SeatMeasure measure) {
    return measure == SeatMeasure::hour
               ? won_marks_text(weight) + " marks a paper won back, if an hour is worth what is assumed."
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

void print_class(const Context& context, std::size_t number, const SeatPlan::RevisionClass& one,
                 const std::vector<SeatLosses>& lost_here, const LostMarks& lost, std::size_t places,
                 SeatMeasure measure) {
    std::vector<std::string> topics;
    for (const std::size_t topic : one.topics)
        topics.push_back(visible(lost.topics[topic]));
    std::vector<std::string> seats;
    for (std::size_t i = 0; i < one.seats.size(); ++i)
        seats.push_back(visible(lost.candidates[one.seats[i].candidate]) + " " +
                        seat_text(lost_here[i], measure));
    context.out << '\n' << context.heading("Class " + std::to_string(number)) << ": ";
    if (topics.empty()) {
        context.out << "not needed\n";
        return;
    }
    context.out << wrapped_list(topics, text_width() - 12, 2) << '\n'
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
        context.out
            << "There's nothing to win back: hardly any marks are likely to be lost on these\n"
               "topics in the next paper.\nNext: run it again with --weigh marks to go by the marks lost\n";
    else
        context.out << "There's nothing to win back: none of the marks that count here were lost on a\n"
                       "topic. A paper's topics come from a column of its CSV file.\n"
                       "Next: inkturn paper list\n";
}

std::string key_text(SeatMeasure measure, Gain gain, std::size_t candidates) {
    const std::string judgement = " Marks don't say who needs help most: that's your judgement.";
    if (measure == SeatMeasure::marks)
        return text_line("Beside each candidate: the marks lost on the class's topics so far." + judgement);
    return text_line("Beside each candidate: the marks a paper won back if an hour on each of the class's "
                     "topics wins back " +
                     std::to_string(gain.percent()) +
                     " of every 100 marks lost on it, which is assumed (--gain); in brackets, the marks lost "
                     "on them so far. What is won back rests on " +
                     marks_of_text(candidates) + "." + judgement);
}

void print(const Context& context, const SeatsRequest& request, const LostMarks& lost, const SeatPlan& plan,
           SeatMeasure measure, const std::string& key, const std::string& of_class, bool wished) {
    if (plan.weight == SeatWeight()) {
        print_nothing(context, lost);
        return;
    }
    context.out << context.heading("Revision classes") << ": "
                << wrapped(won_text(plan.weight, measure), text_width() - 18, 2) << '\n'
                << (plan.bound == plan.weight
                        ? "No plan does better.\n"
                        : wrapped(
                              "No plan does better than " + weight_text(plan.bound, measure) +
                                  "; the search stopped before it could tell whether a better plan exists.",
                              text_width()) +
                              "\n");
    const std::vector<std::vector<SeatLosses>> by_seat = losses_by_seat(plan, lost);
    for (std::size_t i = 0; i < plan.classes.size(); ++i)
        print_class(context, i + 1, plan.classes[i], by_seat[i], lost, request.places, measure);
    std::vector<std::string> left_out;
    for (const std::string& candidate : left_out_of(plan, lost, measure))
        left_out.push_back(visible(candidate));
    if (!left_out.empty())
        context.out << "\nLeft out:\n  " << wrapped_list(left_out, text_width() - 2, 2) << '\n';
    std::vector<std::string> none;
    for (const std::string& candidate : without_need(lost, measure))
        none.push_back(visible(candidate));
    if (!none.empty())
        context.out << (wished ? "\nWithout a wish, or nothing to win back:\n  "
                               : "\nNothing to win back:\n  ")
                    << wrapped_list(none, text_width() - 2, 2) << '\n';
    context.out << '\n' << key << "Next: inkturn class retries" << of_class << '\n';
}

void run(const Context& context, const SeatsOptions& options) {
    const SeatsRequest request = asked_in(options);
    const SeatMeasure measure = measure_of(options);
    const Gain gain = options.gain.read();
    const Store store = context.store_to_read();
    check_subject_filter(context, store, options.subject);
    LostOnFile on_file = lost_on_file(store, options, gain);
    LostMarks& lost = on_file.lost;
    const std::string key = key_text(measure, gain, on_file.candidates);
    if (!options.wishes.empty())
        keep_wishes(lost, read_wishes(context, options, lost));
    const SeatPlan plan = plan_seats(request, lost.rows_by(measure));
    context.answer([&] { return json_of(plan, lost, measure); },
                   [&] {
                       print(context, request, lost, plan, measure, key, class_words(options.of_class),
                             !options.wishes.empty());
                   });
}

} // namespace

void add_class_seats(Command& group) {
    auto options = std::make_shared<SeatsOptions>();
    Command seats = group.command("seats", "Plan revision classes: who sits in which, and on what topics");
    seats.option("--classes", options->classes, "K", "How many revision classes").required();
    seats.option("--places", options->places, "P", "Places in each").required();
    seats.option("--topics-each", options->topics_each, "T", "The most topics in one class (1)");
    seats.option("--each", options->each, "N", "The most classes for one candidate (1)");
    seats.option("--wishes", options->wishes, "FILE",
                 "CSV with the columns candidate,topic: seat only these, on the topics they ask for; an "
                 "empty topic means any");
    add_class_option(seats, options->of_class, "Only candidates in this class (all on file)");
    seats.option("--subject", options->subject, "S", "Only papers of this subject (all)");
    seats.option("--weigh", options->measure, "hour|marks",
                 "What to seat by: the marks a paper that an hour wins back, or the marks lost (hour)");
    options->gain.add_to(seats);
    options->csv.add_to(seats);
    seats.json();
    seats.closing("Example:\n  inkturn class seats --classes 3 --places 8 --topics-each 2");
    seats.runs(options, run);
}

} // namespace inkturn
