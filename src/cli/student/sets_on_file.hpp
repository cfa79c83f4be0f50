#pragma once

#include "cli/student/pictures_on_file.hpp"
#include "inkturn/paper/copies.hpp"
#include "inkturn/plan/timetable.hpp"
#include "inkturn/store/store.hpp"
#include "view/page/question_set.hpp"

#include <memory>
#include <vector>

namespace inkturn {

/// Drawn papers on file, as they are printed.
class SetsOnFile {
  public:
    explicit SetsOnFile(const Store& store);

    /// A question without a picture of its own is shown as in the paper that it was drawn from.
    QuestionSet set_of(const std::shared_ptr<const Paper>& paper, PicturesOnFile& pictures) const;

    /// The drawn papers that the timetable has on a day of the span, by day; other papers are there in print.
    std::vector<QuestionSet> within(const Timetable& timetable, DaySpan span, ExtraTime extra,
                                    PicturesOnFile& pictures) const;

  private:
    QuestionOfSet question_of_set(const Paper& paper, const Question& question,
                                  PicturesOnFile& pictures) const;

    const Store& store_;
    std::vector<Copies> copies_;
};

} // namespace inkturn
