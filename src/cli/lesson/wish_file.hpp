#pragma once

#include "cli/context.hpp"
#include "cli/csv_options.hpp"
#include "cli/output_file.hpp"
#include "inkturn/lesson/wish.hpp"
#include "inkturn/store/store.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// A file of wishes, or a request form that was filled in.
struct WishFile {
    std::string file;
    std::string of_class; ///< empty: everybody may ask
    CsvOptionTexts csv;
    std::vector<std::string> accepted; ///< answers to doubts
};

/// Its wishes, with codes as settled_codes() has them; those with problems end in an Error that says what was
/// not done. A topic has to be in a paper on file; a candidate need not be on file.
std::vector<Wish> wishes_in_file(const Context& context, const Store& store, const WishFile& wishes,
                                 const std::string& undone);

/// The candidate's; any topic on any day if there is none.
Wish wish_of(const std::optional<std::vector<Wish>>& wishes, const std::string& candidate);

/// When it was asked: as the wish says, else now.
Moment asked_at(const Wish& wish, Moment now);

/// What the wish asks of the lesson, or all of it if that is nothing, in this state.
PlaceAsked place_of(const Wish& wish, const Lesson& lesson, Moment now, PlaceState state);

/// The day that counts as today, at this time of day.
Moment moment_of_today(const Context& context);

/// Of papers on file.
std::vector<std::string> topics_on_file(const Store& store);

/// The one subject of papers on file that all the topics are in; empty if no paper has them. Throws Error if
/// there are several.
std::string subject_of_topics(const Store& store, const std::vector<std::string>& topics);

/// To the file named, which only its owner may read, or to standard output.
void write_csv_output(const Context& context, OutputOptions output, const std::string& csv);

} // namespace inkturn
