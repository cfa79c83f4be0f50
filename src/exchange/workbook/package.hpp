#pragma once

#include "exchange/workbook/limits.hpp"
#include "exchange/workbook/xml.hpp"

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

namespace inkturn {

/// A workbook's container: named parts, packed as zip.
class WorkbookPackage {
  public:
    /// Throws Error if it can't be opened or has too many entries. The bytes must outlive the package.
    WorkbookPackage(std::string_view bytes, const WorkbookLimits& limits);
    ~WorkbookPackage();
    WorkbookPackage(const WorkbookPackage&) = delete;
    WorkbookPackage& operator=(const WorkbookPackage&) = delete;

    const WorkbookLimits& limits() const;

    /// Whether there is a part of this name, in any case.
    bool has(const std::string& part) const;

    /// Reads a part that is XML. Throws Error if it isn't there, is damaged, encrypted or too large.
    void read_xml(const std::string& part, XmlHandler& handler);

    /// The first bytes of a part, at most this many; empty where it isn't there.
    std::string start_of(const std::string& part, std::size_t bytes);

  private:
    struct State;
    std::unique_ptr<State> state_;
};

} // namespace inkturn
