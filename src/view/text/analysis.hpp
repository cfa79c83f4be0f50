#pragma once

#include "inkturn/paper/paper.hpp"
#include "inkturn/statistics/analysis.hpp"
#include "view/page/html_table.hpp"
#include "view/text/table.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// How many sat the paper, and the figures of their unaided totals.
Table paper_table(const PaperAnalysis& analysis);

/// The same for a page, with the facility of the whole paper; a missing figure has no row.
HtmlTable paper_page_table(const PaperAnalysis& analysis);

/// One row per part for a page, those to look at marked and first, with what the figures say below their
/// names.
HtmlTable parts_page_table(const Paper& paper, const PaperAnalysis& analysis);

/// At which parts time ran out, and for how many.
HtmlTable ran_out_page_table(const Paper& paper, const PaperAnalysis& analysis);

/// The main figures of the totals, which some candidate has: a sentence or two.
std::string totals_text(const PaperAnalysis& analysis);

/// That all comes from few candidates: a sentence, empty where they are many.
std::string from_few(const PaperAnalysis& analysis);

/// A sentence; empty if there is a standard error.
std::string why_no_error(const PaperAnalysis& analysis);

/// One row per part: maximum, mean, facility, the correlation with the rest and its alpha, discrimination,
/// and the shares not tried and earned in overtime. `-` where there is no figure.
Table parts_table(const Paper& paper, const PaperAnalysis& analysis);

// The texts below are lines of at most 80 columns that each end in a line break; none where there is nothing
// to say.

/// What the short titles of parts_table() mean.
std::string parts_key();

/// Why a figure is `-` in either table: one line per reason, with its parts.
std::string reasons(const Paper& paper, const PaperAnalysis& analysis);

/// How many ran out of time, and at which parts.
std::string counted_lines(const Paper& paper, const PaperAnalysis& analysis);

std::string ran_out_lines(const Paper& paper, const PaperAnalysis& analysis);

/// The parts that were hardest beside others of their topic, three at most, and what that can't tell; empty
/// where none stands out. `eases` as in Outlook::part_ease(), in the paper's order.
std::string hardest_parts(const Paper& paper, const std::vector<std::optional<double>>& eases);

/// What the figures say about each part that stands out, in the paper's order, and where they come from few.
std::string readings(const Paper& paper, const PaperAnalysis& analysis);

} // namespace inkturn
