@echo off
rem The command line from a checkout: builds quietly (nothing is done when nothing changed), then passes arguments and exit code on.
where dotnet >nul 2>nul || (echo stillhook: the .NET 10 SDK is needed and was not found; install it and try again. 1>&2 & exit /b 2)
where node >nul 2>nul || (echo stillhook: Node 20 or newer is needed and was not found; install it and try again. 1>&2 & exit /b 2)
dotnet build "%~dp0src\Stillhook.App" -c Release -v q -nologo 1>&2 || exit /b 2
dotnet "%~dp0artifacts\bin\Stillhook.App\release\Stillhook.App.dll" %*
