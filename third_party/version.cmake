# SILLWRIGHT_COMMIT: the commit this tree stands at, "+" where files differ from it; empty outside a clone. Asked when CMake
# runs, which it does again after each commit. SILLWRIGHT_COMMIT_TIME: its seconds since 1970, for what must not bear today's.
function(sillwright_git variable)
  execute_process(COMMAND git -C ${PROJECT_SOURCE_DIR} ${ARGN}
                  OUTPUT_VARIABLE answer OUTPUT_STRIP_TRAILING_WHITESPACE ERROR_QUIET RESULT_VARIABLE failed)
  if(failed)
    set(answer "")
  endif()
  set(${variable} "${answer}" PARENT_SCOPE)
endfunction()

if(EXISTS ${PROJECT_SOURCE_DIR}/.git)  # not of a clone that a mere copy of this tree lies in
  sillwright_git(SILLWRIGHT_COMMIT describe --always --exclude=* --abbrev=10 --dirty=+)
  sillwright_git(SILLWRIGHT_COMMIT_TIME log -1 --format=%ct)
  sillwright_git(SILLWRIGHT_GIT_LOG rev-parse --path-format=absolute --git-path logs/HEAD)
endif()
set(SILLWRIGHT_BUILT_FROM "")
if(SILLWRIGHT_COMMIT)
  set(SILLWRIGHT_BUILT_FROM " (${SILLWRIGHT_COMMIT})")
  set_property(DIRECTORY ${PROJECT_SOURCE_DIR} APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${SILLWRIGHT_GIT_LOG})
endif()
