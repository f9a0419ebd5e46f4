"""What all tests share: the fixtures that Stillroom has for everybody who tests a calculator."""

pytest_plugins = ["stillroom_bot.testing.fixtures"]
