# What is installed beside the program, and the packages: `cpack -G DEB` and `cpack -G TGZ --config CPackSourceConfig.cmake`.
# The pages and notices are targets of their own: `inkturn` builds without them, and what was not made is not installed.

find_package(Python3 COMPONENTS Interpreter)
set(package_dir ${CMAKE_CURRENT_SOURCE_DIR}/src/package)
set(made_dir ${CMAKE_CURRENT_BINARY_DIR}/package)

if(Python3_FOUND)
  set(page_sources docs/man/make_pages docs/man/mdoc.py docs/storage.md docs/formats/boundaries-csv.md
    docs/formats/class-csv.md docs/formats/csv.md docs/formats/facts-csv.md docs/formats/paper-csv.md
    docs/formats/retried-csv.md docs/formats/retries-csv.md docs/formats/wishes-csv.md)
  list(TRANSFORM page_sources PREPEND ${CMAKE_CURRENT_SOURCE_DIR}/)
  add_custom_command(OUTPUT ${made_dir}/man/man1/inkturn.1
    COMMAND Python3::Interpreter ${CMAKE_CURRENT_SOURCE_DIR}/docs/man/make_pages $<TARGET_FILE:inkturn> ${made_dir}/man
      ${INKTURN_DATE}
    DEPENDS inkturn ${page_sources} VERBATIM)
  set(manual ${made_dir}/man/man1/inkturn.1)
  find_program(CMARK_GFM cmark-gfm)
  find_program(MANDOC mandoc)
  mark_as_advanced(CMARK_GFM MANDOC)
  if(CMARK_GFM AND MANDOC) # and as HTML
    add_custom_command(OUTPUT ${made_dir}/html/index.html
      COMMAND Python3::Interpreter ${CMAKE_CURRENT_SOURCE_DIR}/docs/html/make_manual ${CMARK_GFM} ${MANDOC} ${made_dir}/man
        ${made_dir}/html
      DEPENDS ${manual} ${CMAKE_CURRENT_SOURCE_DIR}/docs/html/make_manual DEPFILE ${made_dir}/html.d VERBATIM)
    list(APPEND manual ${made_dir}/html/index.html)
  endif()
  add_custom_target(inkturn_manual ALL DEPENDS ${manual})
endif()

foreach(page_section 1 5)
  install(DIRECTORY ${made_dir}/man/man${page_section}/ DESTINATION ${CMAKE_INSTALL_MANDIR}/man${page_section}
    COMPONENT program OPTIONAL FILES_MATCHING PATTERN "*.gz")
endforeach()
install(DIRECTORY ${made_dir}/html DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/inkturn COMPONENT program OPTIONAL)
install(DIRECTORY demo DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/inkturn COMPONENT program
  FILES_MATCHING PATTERN "*.csv" PATTERN "*.txt") # which the manual's commands read
install(FILES ${package_dir}/shells/inkturn.bash RENAME inkturn
  DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions COMPONENT program)
install(FILES ${package_dir}/shells/_inkturn DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions COMPONENT program)
install(FILES ${package_dir}/shells/inkturn.fish DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d
  COMPONENT program)

# On Debian, whose package manager knows whose the libraries are.
find_program(DPKG_QUERY dpkg-query)
mark_as_advanced(DPKG_QUERY)
if(NOT Python3_FOUND OR NOT DPKG_QUERY)
  return()
endif()

# Not Boost, whose licence asks for no notice beside a program, nor what the program loads from the system.
set(linked $<TARGET_LINKER_FILE:SQLiteCpp> ${JPEG_LIBRARIES} ${PNG_LIBRARIES} ${EXPAT_LIBRARIES} ${UTF8PROC_LIBRARY})
if(INKTURN_STATIC_LIBRARIES)
  find_library(SQLITE3_ARCHIVE ${CMAKE_STATIC_LIBRARY_PREFIX}sqlite3${CMAKE_STATIC_LIBRARY_SUFFIX})
  mark_as_advanced(SQLITE3_ARCHIVE)
  list(APPEND linked ${SQLITE3_ARCHIVE})
endif()
foreach(header CLI/CLI.hpp nlohmann/json.hpp date/date.h eigen3/Eigen/Core)
  string(MAKE_C_IDENTIFIER "INKTURN_HEADER_${header}" found)
  find_file(${found} ${header} PATH_SUFFIXES include NO_CACHE)
  list(APPEND linked ${${found}})
endforeach()
list(FILTER linked EXCLUDE REGEX "\\.so$|^m$|^$")

file(READ LICENSE license)
string(REGEX REPLACE "^MIT License\n\n[^\n]*\n\n" "" license "${license}")
string(REGEX REPLACE "\n\n" "\n.\n" license "${license}")
string(REGEX REPLACE "\n(.)" "\n \\1" license " ${license}")
set(mail inkturn@inkturn.example)
set(changelog_date "Mon, 30 Nov 2026 12:00:00 +0000")
configure_file(${package_dir}/copyright.in ${made_dir}/copyright @ONLY)
configure_file(${package_dir}/changelog.in ${made_dir}/changelog @ONLY)
add_custom_command(OUTPUT ${made_dir}/notices.gz ${made_dir}/changelog.gz
  COMMAND Python3::Interpreter ${package_dir}/notices ${made_dir}/notices ${linked}
  COMMAND gzip -9nf ${made_dir}/notices
  COMMAND gzip -9nkf ${made_dir}/changelog
  DEPENDS ${package_dir}/notices ${made_dir}/changelog VERBATIM)
add_custom_target(inkturn_notices ALL DEPENDS ${made_dir}/notices.gz)
install(FILES ${made_dir}/copyright ${made_dir}/notices.gz ${made_dir}/changelog.gz
  DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/inkturn COMPONENT program OPTIONAL)
install(FILES ${package_dir}/lintian-overrides RENAME inkturn DESTINATION ${CMAKE_INSTALL_DATADIR}/lintian/overrides
  COMPONENT program)

set(CPACK_PACKAGE_NAME inkturn)
set(CPACK_PACKAGE_VENDOR "The inkturn founders")
set(CPACK_PACKAGE_CONTACT "The inkturn founders <${mail}>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "timed-paper marker and retry scheduler")
set(CPACK_DEBIAN_PROGRAM_DESCRIPTION "Records the marks of timed papers by ink, part by part, and brings every
missed question back two to three weeks later, before the exam, until it is
got. Plans this work over the days that a candidate has, and does the same
for a class from a workbook of marks.")
set(CPACK_RESOURCE_FILE_LICENSE ${CMAKE_CURRENT_SOURCE_DIR}/LICENSE)
set(CPACK_STRIP_FILES ON)
set(CPACK_COMPONENTS_ALL program) # not the libraries
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME inkturn)
set(CPACK_DEBIAN_PACKAGE_SECTION education)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS "libzip4 | libzip5, poppler-utils") # workbooks, by Debian 12's name or 13's; printed papers
set(CPACK_DEBIAN_PACKAGE_SUGGESTS "tesseract-ocr") # scans
set(CPACK_SOURCE_GENERATOR TGZ)
set(CPACK_SOURCE_PACKAGE_FILE_NAME inkturn-${PROJECT_VERSION})
set(CPACK_SOURCE_IGNORE_FILES "/\\\\.git/" "/\\\\.git$" "/build/" "/__pycache__/")
include(CPack)
