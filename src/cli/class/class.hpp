#pragma once

#include "cli/command_line.hpp"
#include "cli/context.hpp"

#include "inkturn/base/day_span.hpp"
#include "inkturn/statistics/comparison.hpp"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

// The commands of the group `class`, each defined in the file of its name.
void add_class_analyse(Command& group);
void add_class_close(Command& group);
void add_class_collect(Command& group);
void add_class_import(Command& group);
void add_class_mark(Command& group);
void add_class_marks(Command& group);
void add_class_letters(Command& group);
void add_class_phone(Command& group);
void add_class_members(Command& group); ///< add, list, members, remove
void add_class_report(Command& group);
void add_class_retried(Command& group);
void add_class_retries(Command& group);
void add_class_returned(Command& group);
void add_class_standing(Command& group);
void add_class_topics(Command& group);

/// Adds the option --class, which takes no empty name.
void add_class_option(Command& command, std::string& name, const std::string& help);

/// The same for a command that only looks, of a class or of all candidates on file: a class that is not typed
/// may come from the file of defaults, and --all-classes looks at all whatever that says.
void add_class_looked_at(Command& command, std::string& name, const std::string& help);

/// --class as typed; nothing if it wasn't given.
std::optional<std::string> class_named(const std::string& name);

/// The options --first and --latest.
struct WhichSittingOptions {
    bool first = false;
    bool latest = false;

    void add_to(Command& command);
    WhichSitting which() const; ///< throws UsageError if both were given
};

/// Which sitting of each candidate counts, and of whom: a sentence.
std::string which_counts(WhichSitting which, const std::string& class_name);

/// The sittings of a paper that count, one a candidate; if days are given only of these.
Side side_on_file(const Store& store, std::shared_ptr<const Paper> paper, const std::string& class_name,
                  WhichSitting which, const std::optional<DaySpan>& days = {});

/// Sittings of the paper by members that don't count, as the class has one of its own of theirs: at home, or
/// for another class. None without a class.
std::vector<SittingOfPaper> sat_elsewhere(const Store& store, const Paper& paper,
                                          const std::string& class_name);

/// Codes of the candidates in the class, or of all on file. Throws Error if there is no such class.
std::vector<std::string> codes_of(const Store& store, const std::string& class_name);

/// ` --class tuesday`, to go on with the same class; empty for all candidates.
std::string class_words(const std::string& class_name);

/// `class tuesday`, `all candidates`.
std::string class_title(const std::string& class_name);

/// Which of several classes' sittings count, as a sentence; empty without a class.
std::string counted_for_class(const std::string& class_name);

} // namespace inkturn
