"""What stands aside while another module is loaded is there again afterwards, for whoever wants it."""

import subprocess
import sys

import pytest

from stackcheck.aside import Aside


def in_a_new_process(code: str) -> str:
    return subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.strip()


def test_a_module_that_is_loaded_already_stays_itself():
    with Aside({"sys": None}):
        import sys as within
    assert within is sys


def test_a_stand_in_is_gone_afterwards_even_where_loading_fails():
    with pytest.raises(ImportError), Aside({"stackcheck_no_such_module": None}):
        import stackcheck_no_such_module  # noqa: F401
    assert "stackcheck_no_such_module" not in sys.modules


@pytest.mark.parametrize(
    "name",
    [
        "gettext",
        "uuid",
        "typing_extensions",
        "datetime",
        "decimal",
        "msgspec.inspect",
        "msgspec.toml",
        "msgspec.yaml",
        "msgspec._json_schema",
    ],
)
def test_the_command_line_leaves_every_module_to_be_loaded_whole(name):
    """A server or a plugin in the same process may need what one look-up does not."""
    code = f"import stackcheck.cli, sys; from importlib import import_module; assert {name!r} not in sys.modules; print(import_module({name!r}).__file__)"
    assert in_a_new_process(code).endswith(".py")


def test_the_help_is_the_same_without_a_look_for_translations():
    plain = "from stackcheck.cli import main; main(['find', '--help'])"
    assert in_a_new_process(plain) == in_a_new_process(f"import gettext; {plain}")


def test_dates_are_the_same_whoever_loads_them_first():
    """Their types are those written in C, which stand in for the module that names them."""
    code = "import stackcheck.catalogue.index, datetime, sqlite3, msgspec; day = datetime.date(2024, 2, 29); print(sqlite3.Date is datetime.date, msgspec.to_builtins(day))"
    assert in_a_new_process(code) == "True 2024-02-29"


def test_the_solvers_of_the_network_are_those_of_scipy_and_come_without_its_linear_algebra():
    """Loading all of it took a quarter of a whole answer about forces."""
    code = "import stackcheck.mechanics.axial.network, stackcheck.mechanics.axial.lapack as ours, sys; assert 'scipy.linalg' not in sys.modules"
    code += "; from scipy.linalg import lapack, norm; print(all(getattr(ours, name) is getattr(lapack, name) for name in ours.__all__))"
    assert in_a_new_process(code) == "True"
