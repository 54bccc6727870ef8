@call "%~dp0stillhook.cmd" demo --serve %*
