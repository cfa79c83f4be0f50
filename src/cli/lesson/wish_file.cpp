#include "cli/lesson/wish_file.hpp"

#include "cli/class/class.hpp"
#include "cli/class/doubts_listed.hpp"
#include "cli/local_time.hpp"
#include "exchange/csv/wishes.hpp"
#include "inkturn/base/error.hpp"

#include <algorithm>
#include <iostream>
#include <set>
#include <utility>

namespace inkturn {
namespace {

/// Candidates on file who are not in the class.
std::set<std::string> others_than(const Store& store, const std::string& of_class) {
    std::set<std::string> others;
    if (of_class.empty())
        return others;
    const std::vector<std::string> members = codes_of(store, of_class);
    for (const std::string& code : store.candidates())
        if (!std::binary_search(members.begin(), members.end(), code))
            others.insert(code);
    return others;
}

} // namespace

std::vector<Wish> wishes_in_file(const Context& context, const Store& store, const WishFile& wishes,
                                 const std::string& undone) {
    const InputFile file(wishes.file, context);
    ProblemList problems;
    const auto rows = wishes.csv.rows_of(file);
    const std::vector<std::string> topics = topics_on_file(store);
    std::vector<Wish> read = read_wishes_rows(
        *rows, {{topics.begin(), topics.end()}, others_than(store, wishes.of_class)}, problems);
    refuse_problems(context, file.name(), problems, undone);
    std::vector<std::string> codes;
    for (const Wish& wish : read)
        codes.push_back(wish.candidate);
    codes = settled_codes(context, store, std::move(codes), wishes.accepted);
    for (std::size_t i = 0; i < read.size(); ++i)
        read[i].candidate = codes[i];
    return read;
}

Wish wish_of(const std::optional<std::vector<Wish>>& wishes, const std::string& candidate) {
    if (wishes)
        for (const Wish& wish : *wishes)
            if (wish.candidate == candidate)
                return wish;
    return {candidate};
}

Moment asked_at(const Wish& wish, Moment now) {
    return wish.asked_on ? local_moment(*wish.asked_on, wish.asked_time) : now;
}

PlaceAsked place_of(const Wish& wish, const Lesson& lesson, Moment now, PlaceState state) {
    const Moment at = asked_at(wish, now);
    PlaceAsked asked =
        wish_for(wish, lesson, at).value_or(PlaceAsked{wish.candidate, at, {}, wish.remark, state});
    asked.state = state;
    return asked;
}

Moment moment_of_today(const Context& context) {
    const Moment now = moment_now();
    const Seconds time_of_day = now - local_moment(local_day(now), Seconds(0));
    return context.today.empty() ? now : local_moment(context.date_today(), time_of_day);
}

std::vector<std::string> topics_on_file(const Store& store) {
    std::set<std::string> topics;
    for (const auto& paper : store.papers())
        for (const Part& part : paper->parts())
            if (!part.topic.empty())
                topics.insert(part.topic);
    return {topics.begin(), topics.end()};
}

std::string subject_of_topics(const Store& store, const std::vector<std::string>& topics) {
    std::set<std::string> subjects;
    for (const auto& paper : store.papers())
        for (const Part& part : paper->parts())
            if (std::find(topics.begin(), topics.end(), part.topic) != topics.end())
                subjects.insert(paper->subject());
    if (subjects.size() > 1)
        throw Error("these topics are in papers of several subjects: use --subject to say which");
    return subjects.empty() ? "" : *subjects.begin();
}

void write_csv_output(const Context& context, OutputOptions output, const std::string& csv) {
    if (output.file.empty())
        output.file = "-";
    write_output(context, output, csv);
    if (output.file != "-")
        context.out << "Wrote " << output.file << ", which only you may read.\n";
}

} // namespace inkturn
