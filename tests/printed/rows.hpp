#pragma once

#include "inkturn/printed/paper.hpp"

#include "pages.hpp"

#include <string>
#include <vector>

// Papers set line by line, and what is read of them.

/// A line of a page: a label, text after it, and what stands at the right edge.
struct Row {
    std::string label;
    std::string text;
    std::string right;
};

/// Labels that begin with a letter or a bracket stand further in than numbers do.
inline Sheets page_of(const std::vector<Row>& rows) {
    Sheets sheets;
    sheets.turn();
    double top = 60;
    for (const Row& row : rows) {
        const char first = row.label.empty() ? ' ' : row.label.front();
        const bool is_sub_part = first == '(' || (first >= 'a' && first <= 'z');
        sheets.set(is_sub_part ? 80 : 50, top, row.label);
        sheets.set(110, top, row.text);
        sheets.set_to(540, top, row.right);
        top += 18;
    }
    return sheets;
}

/// `1a 3, 1b 2`; a dash where a part has no marks.
inline std::string parts(const inkturn::PrintedPaper& paper) {
    std::string text;
    for (const inkturn::PrintedPart& part : paper.parts)
        text += (text.empty() ? "" : ", ") + part.label + " " +
                (part.marks ? std::to_string(part.marks->count()) : "-");
    return text;
}

inline std::string parts(const std::vector<Row>& rows) {
    return parts(inkturn::recognise_paper(page_of(rows).pages()));
}

inline std::vector<std::string> doubts(const std::vector<Row>& rows) {
    std::vector<std::string> messages;
    for (const inkturn::Doubt& doubt : inkturn::recognise_paper(page_of(rows).pages()).doubts)
        messages.push_back(doubt.message);
    return messages;
}

using Messages = std::vector<std::string>;
