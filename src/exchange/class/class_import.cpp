#include "exchange/class/class_import.hpp"

#include "exchange/class/code_check.hpp"
#include "inkturn/store/papers.hpp"
#include "inkturn/store/plan.hpp"

#include "inkturn/base/text.hpp"
#include "inkturn/store/change.hpp"

#include <algorithm>
#include <deque>
#include <future>
#include <map>
#include <set>
#include <thread>
#include <unordered_set>
#include <utility>

namespace inkturn {
namespace {

/// The sittings of the file by candidate, each candidate's in the order of the file.
std::vector<std::vector<ClassSitting*>> by_candidate(ClassFile& csv) {
    std::vector<std::vector<ClassSitting*>> groups(csv.candidates.size());
    for (ClassSitting& sitting : csv.sittings)
        groups[sitting.candidate].push_back(&sitting);
    return groups;
}

SittingRecord* find_same(Candidate& candidate, const Paper& paper, Day day) {
    for (SittingRecord& record : candidate.sittings)
        if (record.sitting.day == day && record.paper->id() == paper.id())
            return &record;
    return nullptr;
}

/// A class's file doesn't say which codes were earned, so those on file stay.
bool are_same(const std::vector<PartMarks>& on_file, const std::vector<PartMarks>& from_file) {
    return std::equal(on_file.begin(), on_file.end(), from_file.begin(), from_file.end(),
                      [](PartMarks known, const PartMarks& said) {
                          known.drop_by_code();
                          return known == said;
                      });
}

void sort_by_day(Candidate& candidate) {
    std::sort(candidate.sittings.begin(), candidate.sittings.end(),
              [](const SittingRecord& a, const SittingRecord& b) {
                  return a.sitting.day != b.sitting.day ? a.sitting.day < b.sitting.day : a.id < b.id;
              });
}

bool makes_retry(const Candidate& candidate, const Paper& paper, const Question& question,
                 const Sitting& sitting) {
    return candidate.wishes.retries.makes_retry(missed_in(paper, question, sitting));
}

/// Adds one sitting of the file to the store and the candidate, unless it is already there.
class SittingImport {
  public:
    SittingImport(Store::Change& change, const ClassImportOptions& options, ClassImport& import)
        : change_(change), options_(options), import_(import) {}

    void take(Candidate& candidate, const std::shared_ptr<const Paper>& paper, ClassSitting& from_file) {
        SittingRecord* on_file = find_same(candidate, *paper, from_file.day);
        if (!on_file) {
            add(candidate, paper, from_file);
        } else if (are_same(on_file->sitting.parts, from_file.parts)) {
            ++import_.sittings_unchanged;
            keep_for_class(on_file->id);
        } else {
            replace(candidate, *on_file, from_file);
        }
    }

    /// Doubts a sitting of a paper that the candidate sat already on another day.
    void doubt_if_sat_before(const Candidate& candidate, const Paper& paper, const ClassSitting& from_file,
                             const CellPlace& place) {
        const SittingRecord* before = nullptr;
        bool same = false;
        for (const SittingRecord& record : candidate.sittings) {
            if (record.paper->id() != paper.id())
                continue;
            if (record.sitting.day == from_file.day)
                return;
            const bool has_same = are_same(record.sitting.parts, from_file.parts);
            if (has_same || !same)
                before = &record;
            same = same || has_same;
        }
        if (before)
            import_.doubts.raise(same ? DoubtKind::same_marks : DoubtKind::sat_before,
                                 {from_file.line,
                                  0,
                                  "candidate " + candidate.code + " sat " + paper.id() + " on " +
                                      iso(before->sitting.day) + " already, with " +
                                      (same ? "the same marks" : "other marks"),
                                  Error::Remedy::none,
                                  {},
                                  place.line == from_file.line ? place.cell : std::string()});
        compare_with_near_papers(candidate, paper, from_file);
    }

    /// Doubts a paper that most candidates who have both sat with the marks of one of nearly the same id, on
    /// the same day.
    void doubt_near_papers() {
        for (const auto& [ids, both] : near_papers_)
            if (2 * both.same > both.compared)
                import_.doubts.raise(DoubtKind::same_marks,
                                     {0, 0,
                                      "these are the marks that " + std::to_string(both.same) +
                                          (both.same == 1 ? " candidate has in " : " candidates have in ") +
                                          ids.second + " on the same day: is " + ids.second +
                                          " meant, and not " + ids.first + "?"});
    }

  private:
    /// Of candidates with sittings of both papers on one day.
    struct NearPaper {
        std::size_t compared = 0;
        std::size_t same = 0; ///< with the same marks
    };

    void compare_with_near_papers(const Candidate& candidate, const Paper& paper,
                                  const ClassSitting& from_file) {
        for (const SittingRecord& record : candidate.sittings) {
            if (record.sitting.day != from_file.day || !is_one_slip(paper.id(), record.paper->id()))
                continue;
            NearPaper& both = near_papers_[{paper.id(), record.paper->id()}];
            ++both.compared;
            both.same += are_same(record.sitting.parts, from_file.parts);
        }
    }

    void keep_for_class(SittingId id) {
        if (options_.of_class)
            change_.keep_for_class(*options_.of_class, id);
    }

    /// Whether the sitting on file was imported for other classes alone.
    std::optional<std::string> other_class_of(SittingId id) const {
        if (!options_.of_class)
            return std::nullopt;
        const std::vector<std::string> classes = change_.store().classes_of(id);
        const bool is_own = std::find(classes.begin(), classes.end(), *options_.of_class) != classes.end();
        return classes.empty() || is_own ? std::nullopt : std::optional(classes.front());
    }

    void add(Candidate& candidate, const std::shared_ptr<const Paper>& paper, ClassSitting& from_file) {
        SittingRecord record;
        record.paper = paper;
        record.sitting = {from_file.day, candidate.extra_time.value_or(ExtraTime()),
                          std::move(from_file.parts)};
        try {
            record.id = change_.add_sitting(candidate.code, *paper, record.sitting);
            keep_for_class(record.id);
        } catch (const StoreError&) {
            throw;
        } catch (const Error& error) {
            import_.problems.add(from_file.line, error.within("candidate " + candidate.code + ": "));
            return;
        }
        for (const Question& question : paper->questions())
            import_.retries_added += makes_retry(candidate, *paper, question, record.sitting);
        candidate.sittings.push_back(std::move(record));
        ++import_.sittings_added;
    }

    void replace(const Candidate& candidate, SittingRecord& on_file, ClassSitting& from_file) {
        if (const auto other = other_class_of(on_file.id)) {
            import_.problems.add(from_file.line, 0,
                                 "candidate " + candidate.code + " has a different sitting of " +
                                     on_file.paper->id() + " on " + iso(from_file.day) +
                                     " on file, imported for class " + *other +
                                     ": no other class replaces it. Give this candidate another code");
            return;
        }
        if (!options_.replace) {
            import_.problems.add(from_file.line, 0,
                                 "candidate " + candidate.code + " has a different sitting of " +
                                     on_file.paper->id() + " on " + iso(from_file.day) +
                                     " on file; use --replace to put this one in its place");
            return;
        }
        const Sitting sitting{from_file.day, on_file.sitting.extra_time, std::move(from_file.parts),
                              on_file.sitting.clock, on_file.sitting.notes};
        try {
            check_can_replace(*on_file.paper, sitting, on_file, options_.file.today);
        } catch (const Error& error) {
            import_.problems.add(from_file.line, error);
            return;
        }
        for (const Question& question : on_file.paper->questions())
            import_.retries_added += makes_retry(candidate, *on_file.paper, question, sitting) &&
                                     !makes_retry(candidate, *on_file.paper, question, on_file.sitting);
        change_.change_sitting(on_file.id, sitting);
        keep_for_class(on_file.id);
        on_file.sitting = sitting;
        ++import_.sittings_replaced;
    }

    Store::Change& change_;
    const ClassImportOptions& options_;
    ClassImport& import_;
    std::map<std::pair<std::string, std::string>, NearPaper>
        near_papers_; ///< by the file's and the other's id
};

/// Puts what the file says of a candidate's extra time on file, of sittings to come and those of the file; a
/// change of what is on file is doubted.
void take_extra_time(Store::Change& change, const ExtraTimeInFile& in_file, Candidate& candidate,
                     ClassImport& import) {
    if (candidate.extra_time && candidate.extra_time->percent() == in_file.extra.percent())
        return;
    if (candidate.extra_time) {
        Problem at = in_file.at;
        at.message = "candidate " + candidate.code + " has " +
                     std::to_string(candidate.extra_time->percent()) + "% extra time on file, " +
                     std::to_string(in_file.extra.percent()) + "% in the file";
        import.doubts.raise(DoubtKind::extra_time, std::move(at));
        if (import.doubts.is_otherwise(DoubtKind::extra_time))
            return;
    }
    change.set_extra_time(candidate.code, in_file.extra);
    candidate.extra_time = in_file.extra;
    ++import.extra_times_set;
}

void make_class(Store::Change& change, const std::string& name, ClassImport& import) {
    if (change.store().has_class(name))
        return;
    change.add_class(name);
    import.class_added = true;
}

/// Gives the retries of candidates their days, on the processors there are, and keeps these in the order in
/// which the candidates came.
class RetryDays {
  public:
    RetryDays(Store::Change& change, Day today) : change_(change), today_(today) {}

    void add(Candidate candidate) {
        waiting_.push_back(std::move(candidate));
        if (waiting_.size() == together)
            start();
    }

    void keep_all() {
        start();
        while (!started_.empty())
            keep_first();
    }

  private:
    static constexpr std::size_t together = 32; ///< candidates that one thread is given

    struct Placed {
        std::string code;
        std::vector<Retry> retries;
        bool has_plan;
        bool are_first; ///< no day of theirs was kept before
    };

    void start() {
        if (started_.size() > std::thread::hardware_concurrency())
            keep_first();
        constexpr auto in_thread = std::launch::async | std::launch::deferred; // later, where none is left
        started_.push_back(std::async(in_thread, placed, std::exchange(waiting_, {}), today_));
    }

    /// Takes the candidates, so that they are freed in the thread that placed their retries.
    static std::vector<Placed> placed(std::vector<Candidate> candidates, Day today) {
        std::vector<Placed> all;
        for (const Candidate& candidate : candidates)
            all.push_back({candidate.code, open_retries(candidate, today), candidate.planned_for.has_value(),
                           candidate.placements.empty()});
        candidates.clear();
        return all;
    }

    void keep_first() {
        for (const Placed& one : started_.front().get()) {
            if (one.are_first)
                change_.keep_first_days(one.retries);
            else
                change_.keep_days(one.retries);
            if (!one.has_plan)
                PlanOnFile(change_).set_planned_for(one.code, today_);
        }
        started_.pop_front();
    }

    Store::Change& change_;
    Day today_;
    std::vector<Candidate> waiting_;
    std::deque<std::future<std::vector<Placed>>> started_;
};

void put_in_class(Store::Change& change, const std::string& name, const std::vector<std::string>& candidates,
                  ClassImport& import) {
    for (const std::string& candidate : candidates)
        import.members_added += change.add_member(name, candidate);
}

/// The last day on which the file has the paper sat.
std::optional<Day> last_day_of(const ClassFile& file, std::size_t paper) {
    std::optional<Day> last;
    for (const ClassSitting& sitting : file.sittings)
        if (sitting.paper == paper)
            last = std::max(last.value_or(sitting.day), sitting.day);
    return last;
}

/// Doubts that somebody was absent who has marks of that paper and day on file.
void doubt_absences(const Store& store, ClassFile& file) {
    for (const AbsenceInFile& absence : file.reading.absent) {
        const auto& paper = file.papers[absence.paper].paper;
        const auto day = absence.day ? absence.day : last_day_of(file, absence.paper);
        const std::string& code = file.candidates[absence.candidate];
        if (!paper || !day || !store.has_candidate(code))
            continue;
        Candidate candidate = store.candidate(code);
        const CellPlace& place = file.places[absence.candidate];
        if (find_same(candidate, *paper, *day))
            file.doubts.raise(DoubtKind::absent_on_file,
                              {place.line,
                               place.column,
                               "candidate " + code + " is absent here, and has marks of " + paper->id() +
                                   " on " + iso(*day) +
                                   " on file: if these are wrong, 'inkturn sitting list' "
                                   "shows their number, and sitting remove takes them off",
                               Error::Remedy::none,
                               {},
                               place.cell});
    }
}

void note_absences(Store::Change& change, const std::string& class_name, const ClassFile& file) {
    PapersOnFile papers(change);
    for (const AbsenceInFile& absence : file.reading.absent)
        if (const auto day = absence.day ? absence.day : last_day_of(file, absence.paper))
            papers.note_absent(class_name, *file.papers[absence.paper].paper, *day,
                               file.candidates[absence.candidate]);
}

/// Empty where all are known.
std::string first_new(const std::vector<std::string>& candidates,
                      const std::unordered_set<std::string>& known) {
    for (const std::string& code : candidates)
        if (known.count(code) == 0)
            return code;
    return "";
}

/// Throws Error where the paper named is on file and has not the parts that were set.
void check_only(const Store& store, const ClassFileOptions& options) {
    if (options.only.empty() || !options.paper)
        return;
    try {
        if (const auto paper = store.find_paper(*options.paper))
            parts_set(*paper, options.only);
    } catch (const StoreError&) {
        throw;
    } catch (const Error& error) {
        throw error.within("--only ");
    }
}

/// Doubts a subject that is new, or that the papers on file contradict.
void doubt_subject(const ClassImportOptions& options, ClassFile& file) {
    if (options.file.subject.empty())
        return;
    std::optional<std::string> why;
    for (const auto& [paper, on_file] : file.papers)
        if (!on_file && options.doubt_of_subject)
            why = options.doubt_of_subject;
        else if (on_file && paper && paper->subject() != options.file.subject)
            why = "paper " + paper->id() + " is on file " +
                  (paper->subject().empty() ? "without a subject" : "with the subject " + paper->subject()) +
                  ": --subject is only for papers that the import creates";
    if (why)
        file.doubts.raise(DoubtKind::subject, {0, 0, *why});
}

ClassUnderstood understood(const ClassFile& file, std::size_t candidates_new) {
    ClassUnderstood as;
    as.papers = file.papers;
    std::set<Day> days;
    for (const ClassSitting& sitting : file.sittings)
        days.insert(sitting.day);
    as.days.assign(days.begin(), days.end());
    as.candidates_new = candidates_new;
    as.candidates_known = file.candidates.size() - candidates_new;
    for (const AbsenceInFile& absence : file.reading.absent)
        if (as.absent.empty() || as.absent.back() != file.candidates[absence.candidate])
            as.absent.push_back(file.candidates[absence.candidate]);
    for (const auto& [position, in_file] : file.extra_times)
        as.extra_times.emplace_back(file.candidates[position], in_file.extra);
    as.columns_ignored = file.reading.columns_ignored;
    as.rows_left_out = file.reading.rows_left_out;
    as.rows_above = file.reading.rows_above;
    return as;
}

} // namespace

ClassImport import_class(Store::Change& change, Rows& rows, const ClassImportOptions& options) {
    const Store& store = change.store();
    check_only(store, options.file);
    ClassFile csv =
        read_class(rows, options.file, [&](const std::string& id) { return store.find_paper(id); });
    ClassImport import;
    import.rows = csv.rows;
    import.absent = csv.absent;
    const std::size_t candidates_new = check_codes(store, options.of_class, csv);
    doubt_subject(options, csv);
    doubt_new_papers(store, csv);
    doubt_absences(store, csv);
    if (options.of_class)
        doubt_other_classes(store, *options.of_class, csv);
    if (options.of_class)
        doubt_new_class(store, *options.of_class, csv.doubts);
    import.understood = understood(csv, candidates_new);
    import.doubts = std::move(csv.doubts);
    import.problems = std::move(csv.problems);
    if (!import.problems.empty())
        return import;

    for (const auto& [paper, on_file] : csv.papers) {
        if (on_file)
            continue;
        change.add_paper(*paper);
        import.papers_added.push_back(paper->id());
    }
    const std::vector<std::string> codes = store.candidates();
    const std::unordered_set<std::string> known(codes.begin(), codes.end());
    if (options.of_class) { // first of all: its exams and days decide on those of the retries
        make_class(change, *options.of_class, import);
        put_in_class(change, *options.of_class, csv.candidates, import);
        note_absences(change, *options.of_class, csv);
    }
    const Candidate nobody = store.candidate(first_new(csv.candidates, known));
    SittingImport sittings(change, options, import);
    RetryDays days(change, options.file.today);
    const auto groups = by_candidate(csv);
    for (std::size_t i = 0; i < groups.size(); ++i) {
        Candidate candidate = nobody;
        candidate.code = csv.candidates[i];
        if (known.count(candidate.code) > 0)
            candidate = store.candidate(candidate.code);
        if (const auto extra = csv.extra_times.find(i); extra != csv.extra_times.end())
            take_extra_time(change, extra->second, candidate, import);
        for (const ClassSitting* sitting : groups[i])
            sittings.doubt_if_sat_before(candidate, *csv.papers[sitting->paper].paper, *sitting,
                                         csv.places[i]);
        for (ClassSitting* sitting : groups[i])
            sittings.take(candidate, csv.papers[sitting->paper].paper, *sitting);
        sort_by_day(candidate);
        days.add(std::move(candidate));
    }
    sittings.doubt_near_papers();
    days.keep_all();
    return import;
}

} // namespace inkturn
