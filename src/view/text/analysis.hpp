#pragma once

#include "inkturn/paper/paper.hpp"
#include "inkturn/statistics/analysis.hpp"
#include "view/page/html_table.hpp"
#include "view/text/table.hpp"

#include <string>

namespace inkturn {

/// How many sat the paper, and the figures of their totals in own marks.
Table paper_table(const PaperAnalysis& analysis);

/// The same for a page, with the facility of the whole; a figure that there isn't has no row.
HtmlTable paper_page_table(const PaperAnalysis& analysis);

/// A sentence; none where there is an alpha.
std::string why_no_alpha(const PaperAnalysis& analysis);

/// A row a part: maximum, mean, facility, the correlation with the rest and its alpha, discrimination, and
/// the shares that were not tried and that came in overtime. `-` where there is no figure.
Table parts_table(const Paper& paper, const PaperAnalysis& analysis);

// The texts below are lines of at most 80 columns that each end in a line break; none where there is nothing
// to say.

/// What the short titles of parts_table() mean.
std::string parts_key();

/// Why there is no figure where `-` stands in either table: a reason each, with its parts.
std::string reasons(const Paper& paper, const PaperAnalysis& analysis);

/// How many ran out of time, and at which parts.
std::string ran_out_lines(const Paper& paper, const PaperAnalysis& analysis);

/// What the figures say of each part that stands out, in the paper's order.
std::string readings(const Paper& paper, const PaperAnalysis& analysis);

} // namespace inkturn
