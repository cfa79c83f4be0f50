#pragma once

#include "exchange/workbook/sheet.hpp"
#include "exchange/workbook/xml.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace inkturn {

/// A cell of an OpenDocument sheet: its typed value, and the text that is shown, which is built as it is
/// read.
class OdsCell {
  public:
    explicit OdsCell(const WorkbookSheet& sheet) : sheet_(sheet) {}

    /// Begins anew with the attributes of a cell.
    void start(const XmlAttributes& attributes);

    void start_paragraph();
    void add_text(std::string_view piece);
    void add_blanks(std::size_t count); ///< text:s, which no other blank swallows
    void add_character(char c);         ///< a tab or a line break

    struct Content {
        SheetCellKind kind;
        std::string text;
    };
    /// Throws Error if a typed value is not of its type.
    Content content() const;

  private:
    std::string number_text() const;
    Content value_of_type() const;
    bool shows_error() const;

    const WorkbookSheet& sheet_; ///< whose limits hold
    std::string type_;
    std::string value_;
    std::string shown_;
    bool is_formula_ = false;
    bool is_error_ = false;
    bool has_value_ = false; ///< stated, be it empty
    bool has_paragraph_ = false;
    bool swallows_blanks_ = true;
};

} // namespace inkturn
